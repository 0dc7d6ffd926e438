import type { RecipeComputed } from '@forcemeat/craft/recipe/compute-schema'
import type { Finding } from '../rule.ts'
import { cookBegins, judgeBeforeCook } from './before-cook.ts'
import { judgeDry, type DryJudged } from './dry.ts'
import { judgeDryAir } from './dry-air.ts'
import { dryingEnds } from './end-of-process.ts'
import type { BatchFacts, CurveChannel } from './facts.ts'
import { judgeFerment, type FermentJudged } from './ferment.ts'
import { judgeHeated } from './heated.ts'
import { judgeMeat, type MeatJudged } from './meat.ts'
import { recordFinding } from './own-rules.ts'
import { judgeRawEaten } from './raw-eaten.ts'
import { judgeCombinations, judgeReduction } from './reduction.ts'
import type { SlowLogs } from './slow-facts.ts'
import { dries, isSlow, souredUnplanned, sours } from './slow-kind.ts'
import { epoch } from './stays.ts'
import { TARGET_PH } from './target-ph.ts'
import type { WeighedLine } from './weights.ts'

export type SlowJudged = {
  readonly findings: readonly Finding[]
  /** How the meat was made safe: it rests on what was weighed. */
  readonly meatFindings: readonly Finding[]
  readonly meats: readonly MeatJudged[]
  /** The findings of the batch's own cook and chill, as they stand after a fermentation. */
  readonly heated: readonly Finding[]
  readonly ferment?: FermentJudged
  readonly dry?: DryJudged
}

type Given = {
  readonly channels: readonly CurveChannel[]
  /** Findings of the batch's own cook and chill. */
  readonly curves: readonly Finding[]
  readonly logs: SlowLogs
}

/** A recipe that cooks what it fermented is not done by the fermentation alone. */
const noCook = ({ recipeBody }: BatchFacts, logged: boolean): Finding[] =>
  recipeBody.kind === 'cooked' || recipeBody.cook === undefined || logged
    ? []
    : [
        recordFinding('cookLog', {
          verdict: 'cannot-tell',
          because: 'the recipe has a cook, and no core log of it is recorded',
          settle: 'the log of a core probe through the cook',
        }),
      ]

/** After a fermentation whose degree-hours were kept, these stand in for the limit on the coming up of the cook (FSIS-GD-2021-14, p. 23). */
function sparedComeUp(f: Finding, ferment: readonly Finding[]): Finding {
  if (f.rule !== 'us.fsis.lethality.come-up' || f.verdict === 'pass') return f
  const kept = ferment.find((x) => x.rule === 'us.ferment.degree-hours' && x.verdict === 'pass')
  return kept
    ? { ...f, verdict: 'pass', because: `the degree-hours of the fermentation stand in for it: ${kept.because}` }
    : f
}

/**
 * What only its own pH says is sour, and was read so only after its proven cook, did not sour with the flora the degree-hours are of: over them
 * it is not known to be unsafe.
 */
function afterCook(facts: BatchFacts, findings: readonly Finding[], cook: number | undefined): readonly Finding[] {
  const sour = (facts.measures ?? []).filter((m) => m.what === 'ph' && m.value !== undefined && m.value <= TARGET_PH)
  if (cook === undefined || !souredUnplanned(facts) || sour.some((m) => epoch(m.taken) <= cook)) return findings
  return findings.map((f) =>
    f.verdict === 'fail' && f.rule.endsWith('.degree-hours')
      ? {
          ...f,
          verdict: 'cannot-tell' as const,
          because: `${f.because}; but these hours came after a proven cook, and nothing in it or planned sours it`,
          settle:
            'the pH read again with a meter set that day; what made it sour, where an acid is in it; or the lot held and tested for staphylococcal enterotoxin',
        }
      : f,
  )
}

/** Everything beside the weights that a product not cooked, or fermented or dried before its cook, is judged by. */
export function judgeSlow(
  facts: BatchFacts,
  lines: readonly WeighedLine[],
  computed: RecipeComputed,
  { channels, curves, logs }: Given,
): SlowJudged {
  const ferment = sours(facts) ? judgeFerment(facts, logs.air) : undefined
  const spared = ferment ? curves.map((f) => sparedComeUp(f, ferment.findings)) : curves
  const { heated, logged, cooked } = judgeHeated(facts, spared, channels, logs)
  const { finding, meats } = judgeMeat(facts, lines, logs.centres ?? [], cooked)
  const meatFindings = finding ? [finding] : []
  if (!isSlow(facts)) return { findings: judgeRawEaten(facts, computed, cooked), meatFindings, meats, heated }
  const dry = judgeDry(facts, computed, ferment?.ph, dryingEnds(facts, logs.air))
  const starts = new Map(
    [...(logs.air ?? []), ...(logs.starts ?? [])].flatMap((a) =>
      a.starts?.zone === 'said' ? [[a.seq, a.starts.at] as const] : [],
    ),
  )
  const combinations = ferment ? judgeCombinations(facts, ferment, channels, starts) : []
  return {
    findings: [
      ...noCook(facts, logged),
      ...(cooked ? afterCook(facts, ferment?.findings ?? [], cookBegins(facts, channels)) : (ferment?.findings ?? [])),
      ...(!dries(facts) || ferment
        ? []
        : cooked
          ? judgeBeforeCook(facts, channels, logs.air)
          : [judgeDryAir(facts, logs.air, dry.aw)]),
      ...judgeReduction(facts, computed, combinations, cooked),
      ...dry.findings,
    ],
    meatFindings,
    meats,
    heated,
    ...(ferment ? { ferment } : {}),
    dry,
  }
}
