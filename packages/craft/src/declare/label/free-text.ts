import { figures } from '../../rules.ts'
import { plainName, saidAt } from '../name-claim-words.ts'
import { block } from './blocks.ts'
import type { LabelBlock, LabelInput } from './schema.ts'

/** A product free of something, a share of it, or a day: no line on handling needs one. */
const free = /(?:free (?:from|of)|without|sans|sin|senza|zonder|ohne) \p{L}+|\p{L}+[ -]?(?:free|frei|vrij)(?!\p{L})/iu
const share = /\d+(?:[.,]\d+)? ?%/u
const day = /(?<!\d)(?:19|20)\d\d(?!\d)|(?<!\d)\d{1,2}[./-]\d{1,2}[./-]\d{2,4}(?!\d)|best before|use by/iu

/** Texts the maker writes freely, with their words in other languages. */
const textsOf = ({ pack }: LabelInput): readonly string[] => [
  ...(pack.handling ?? []),
  ...[pack.business, pack.origin].flatMap((t) => t ?? []),
  ...(pack.languages ?? []).flatMap((l) => (l.words ?? []).map((w) => w.is)),
]

/** Free texts that claim something or hold a date, which nothing here holds against the product: a person answers for them. */
export function freeTextBlocks(input: LabelInput): LabelBlock[] {
  const { diets, documents } = figures('nameClaimWords')
  return [...new Set(textsOf(input))].flatMap((text) => {
    const plain = plainName(text)
    const says = [
      ...[...diets, ...documents].flatMap((w) => (saidAt(plain, w).length > 0 ? [w.say] : [])),
      ...[free, share, day].flatMap((p) => p.exec(text)?.[0] ?? []),
    ]
    return says.length === 0
      ? []
      : [
          block(
            `free-text:${text.slice(0, 120)}`,
            `${JSON.stringify(text)} says ${[...new Set(says)].map((s) => JSON.stringify(s)).join(', ')}, which nothing here holds against the product`,
            'take it out of the text, or say what it rests on',
            'person',
          ),
        ]
  })
}
