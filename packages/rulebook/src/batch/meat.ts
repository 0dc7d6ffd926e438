import { paperKinds, wayOfPaper } from '../../data/pork/papers.ts'
import { recipeProcessRules } from '../../data/process/recipe.ts'
import { heading } from '../evaluate.ts'
import type { Finding } from '../rule.ts'
import type { BatchFacts } from './facts.ts'
import { meatLots, sourcesOf, type MeatSource, type TrichinellaSpecies } from './meat-origin.ts'
import { best, byPaper, byTreatment, settleAll, words, type Answer, type TreatmentJudged } from './meat-treatment.ts'
import type { CentreLog } from './slow-facts.ts'
import { isSlow } from './slow-kind.ts'
import type { WeighedLine } from './weights.ts'

/** How one lot stands: what was made of each treatment and paper, and the best of them. */
export type MeatJudged = Answer & {
  readonly lot?: string
  /** The lot as it came in at the door, where it is another. */
  readonly of?: string
  readonly species: TrichinellaSpecies
  readonly treatments: readonly TreatmentJudged[]
}

const kindsThatCount = Object.values(paperKinds).flat().join(', ')
const named = (documents: MeatSource['documents']): string => documents.map((d) => JSON.stringify(d.kind)).join(', ')

function judgeSource(
  lot: string | undefined,
  source: MeatSource,
  facts: BatchFacts,
  centres: readonly CentreLog[],
): MeatJudged {
  const tried = [
    ...source.treatments.map((t) => byTreatment(t, source, facts, lot, centres)),
    ...source.documents.flatMap((d) => {
      const way = wayOfPaper(d.kind)
      return way === undefined
        ? []
        : [{ way, findings: [], ...byPaper(way, source, facts, `${d.kind} ${d.reference}`) }]
    }),
  ]
  const top = tried.toSorted((a, b) => best[a.verdict] - best[b.verdict])[0]
  const head = {
    ...(lot === undefined ? {} : { lot }),
    ...(source.lot === lot ? {} : { of: source.lot }),
    species: source.species,
    treatments: tried,
  }
  if (source.unknown !== undefined && top?.verdict !== 'pass')
    return { ...head, verdict: 'cannot-tell', because: source.unknown, settle: settleAll }
  if (!top)
    return {
      ...head,
      verdict: 'cannot-tell',
      because:
        source.documents.length === 0
          ? 'nothing says how it was made safe'
          : `nothing says how it was made safe: of a paper called ${named(source.documents)} it cannot be told what it proves`,
      settle: source.documents.length === 0 ? settleAll : `${settleAll}; a paper counts as one of: ${kindsThatCount}`,
    }
  return {
    ...head,
    verdict: top.verdict,
    because: top.because,
    ...(top.settle === undefined ? {} : { settle: top.settle }),
  }
}

const rule = recipeProcessRules.find((r) => r.id === 'process.raw-pork')!

/** Whether its meat has to be answered for: what is soured or dried, whatever its kind is called, and what is fresh and eaten as sold. */
const eatenRaw = (facts: BatchFacts): boolean =>
  isSlow(facts) || (facts.recipeBody.kind === 'fresh' && facts.recipeBody.readyToEat)

/**
 * Every lot of pork, wild boar, bear or horse in a product that is not cooked: frozen by a published schedule, or with a paper the places let
 * stand; back through splits and rework. One finding, of the lot that stands worst.
 *
 * @param cooked whether the batch's own cook was proven: it then answers for the meat
 */
export function judgeMeat(
  facts: BatchFacts,
  lines: readonly WeighedLine[],
  centres: readonly CentreLog[],
  cooked: boolean,
): { finding?: Finding; meats: readonly MeatJudged[] } {
  if (!eatenRaw(facts)) return { meats: [] }
  const meats = meatLots(facts, lines).flatMap(({ lot, species }): MeatJudged[] =>
    lot === undefined
      ? species === undefined
        ? []
        : [
            {
              species,
              treatments: [],
              verdict: 'cannot-tell',
              because: 'no lot is recorded for it',
              settle: 'say which lot was weighed in',
            },
          ]
      : sourcesOf(facts, lot, species).map((s) => judgeSource(lot, s, facts, centres)),
  )
  if (meats.length === 0) return { meats }
  const head = heading(rule, rule.values[0]!)
  if (cooked)
    return {
      meats,
      finding: { ...head, verdict: 'pass', because: 'the cook of the batch itself is proven, and kills Trichinella' },
    }
  const name = (m: MeatJudged): string => `${m.lot ?? words(m.species)}${m.of === undefined ? '' : ` (of ${m.of})`}`
  const verdict = (['fail', 'cannot-tell'] as const).find((v) => meats.some((m) => m.verdict === v)) ?? 'pass'
  const speaking = meats.filter((m) => m.verdict === verdict)
  return {
    meats,
    finding: {
      ...head,
      verdict,
      because: speaking.map((m) => `${name(m)}: ${m.because}`).join('; '),
      ...(verdict === 'pass' ? {} : { settle: [...new Set(speaking.flatMap((m) => m.settle ?? []))].join('; ') }),
    },
  }
}
