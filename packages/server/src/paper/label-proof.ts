import { blocksOf } from '@forcemeat/craft/declare/label/blocks'
import { label } from '@forcemeat/craft/declare/label/label'
import type { LabelBlock, LabelOutput } from '@forcemeat/craft/declare/label/schema'
import type { LabelDrawnQuestion } from '@forcemeat/craft/declare/label/drawn'
import { leastType, type LeastType } from '@forcemeat/craft/declare/label/type-size'
import { judge } from '@forcemeat/craft/rules'
import type { Finding } from '@forcemeat/craft/finding'
import { canonical, sha256, type Fact, type Ledger } from '@forcemeat/ledger'
import { labelFacts, type LabelAsked } from './label-facts.ts'
import { inkContrast, undrawable } from './label-draw.ts'
import { layLabel, type DrawnLabel, type LabelSize } from './label-layout.ts'
import { MARK } from './label-mark.ts'

/** Size of a label nobody gave one. */
export const usualSize = { layout: 'head-and-columns', widthMm: 120, heightMm: 90 } as const

export type Approval = Fact<'label.approve'> & { readonly seq: number; readonly at: string; readonly by: string }
export type Settled = { readonly id: string; readonly how: string }
export type ProofAsked = LabelAsked & { readonly label: string; readonly settled?: readonly Settled[] | undefined }

export type Proof = {
  readonly label: string
  readonly recipe: string
  readonly version: number
  readonly batch?: string
  readonly content: LabelOutput
  readonly contentHash: string
  readonly drawn: DrawnLabel
  /** Layout and size of one face, as the pack has them. */
  readonly size: LabelSize
  readonly findings: readonly Finding[]
  /** What stops it; a matter the approver has answered for carries the answer. */
  readonly blocks: readonly (LabelBlock & { readonly settled?: string })[]
  readonly approved?: Pick<Approval, 'seq' | 'at' | 'by' | 'reasons' | 'contentHash'>
  /** Whether it is the label approved last, word for word, and nothing stops it. */
  readonly stands: boolean
}

/** The approval of a label for a place that stands, the latest. */
export async function approvalOf(ledger: Ledger, code: string, place: string): Promise<Approval | undefined> {
  const entries = await ledger.entries({ kind: 'label.approve', about: `label:${code}`, order: 'desc', limit: 200 })
  for (const e of entries)
    if (e.kind === 'label.approve' && e.standing === 'stands' && e.body.place === place)
      return { ...e.body, seq: e.seq, at: e.at, by: e.by }
  return undefined
}

/** SHA-256 over what does not vary from batch to batch by itself. */
const hashOf = (content: LabelOutput): string =>
  sha256(canonical(content.fields.filter((f) => !f.varies).map(({ field, text }) => ({ field, text }))))

/** A nutrition panel of the United States that is not set vertically, and whether the larger ones find room on the same label. */
function displayOf(
  { place, pack }: ProofAsked,
  content: LabelOutput,
  least: LeastType,
  size: LabelSize,
): LabelDrawnQuestion['display'] {
  const { panelDisplay: is, availableSurfaceCm2: area } = pack
  if (place !== 'US' || !content.nutrition || is === undefined || is === 'vertical') return undefined
  const fits = (panelDisplay: 'vertical' | 'tabular'): boolean =>
    layLabel(content, least, size, { ...pack, panelDisplay }).unplaced.length === 0
  return {
    is,
    ...(area === undefined ? {} : { availableCm2: area }),
    verticalFits: fits('vertical'),
    tabularFits: is === 'tabular' || fits('tabular'),
    heightMm: size.heightMm,
  }
}

/** What the rules ask of the place it is made in and the mark on the label. */
const markAsked = (
  { premises, approval }: ProofAsked['pack'],
  { mark }: LabelOutput,
  drawn: DrawnLabel,
): NonNullable<LabelDrawnQuestion['mark']> => ({
  ...(premises ? { route: premises.route } : {}),
  ...(approval === undefined ? {} : { number: approval }),
  ...(premises?.country === undefined ? {} : { country: premises.country }),
  ...(premises?.because === undefined ? {} : { because: premises.because }),
  ...(mark ? { drawn: mark.kind } : {}),
  placed: mark !== undefined && !drawn.unplaced.includes(MARK),
})

/**
 * A label made, drawn and held against every rule, from the record as it stands.
 *
 * @throws Refusal 404 for a batch, recipe or version that is not there; InvalidInput naming the field of the pack
 */
export async function proofOf(ledger: Ledger, asked: ProofAsked, today: string): Promise<Proof> {
  const { version, input } = await labelFacts(ledger, asked, today)
  const { layout, widthMm, heightMm } = usualSize
  const size = {
    layout: asked.pack.layout ?? layout,
    widthMm: asked.pack.widthMm ?? widthMm,
    heightMm: asked.pack.heightMm ?? heightMm,
  }
  const before = await approvalOf(ledger, asked.label, asked.place)
  const content = label({
    ...input,
    pack: { ...input.pack, ...size },
    ...(before ? { approved: { fields: before.fields, allergens: before.allergens } } : {}),
  })
  const least = leastType(asked.place, asked.pack.netG, asked.pack.largestSurfaceCm2)
  const drawn = layLabel(content, least, size, asked.pack)
  const { panel, handling, code } = drawn
  const display = displayOf(asked, content, least, size)
  const type = [
    ...judge('labelType', {
      place: asked.place,
      least,
      texts: drawn.texts,
      ...(drawn.netMm === undefined ? {} : { netMm: drawn.netMm }),
      unplaced: drawn.unplaced,
      missingMm: drawn.missingMm,
    }),
    ...judge('labelDrawn', {
      place: asked.place,
      contrast: inkContrast,
      withoutLetter: undrawable(drawn),
      ...(panel ? { panel } : {}),
      ...(handling ? { handling } : {}),
      ...(code ? { code } : {}),
      ...(display ? { display } : {}),
      mark: markAsked(input.pack, content, drawn),
    }),
  ]
  const contentHash = hashOf(content)
  const same = before?.contentHash === contentHash
  // What was answered for on approval stays answered while the label is the same.
  const answers = [...(asked.settled ?? []), ...(same ? (before.settled ?? []) : [])]
  const blocks = [...content.blocks, ...blocksOf(type)].map((b) => {
    const how = b.by === 'person' ? answers.find((s) => s.id === b.id)?.how : undefined
    return how === undefined ? b : { ...b, settled: how }
  })
  return {
    label: asked.label,
    recipe: input.recipe,
    version,
    ...(input.batch === undefined ? {} : { batch: input.batch }),
    content,
    contentHash,
    drawn,
    size,
    findings: [...content.findings, ...type],
    blocks,
    ...(before
      ? {
          approved: {
            seq: before.seq,
            at: before.at,
            by: before.by,
            reasons: before.reasons,
            contentHash: before.contentHash,
          },
        }
      : {}),
    stands: same && blocks.every((b) => 'settled' in b),
  }
}
