import { overall, type Verdict } from '@forcemeat/craft/finding'
import { findMaterial } from '@forcemeat/craft/materials/materials'
import { computeRecipe } from '@forcemeat/craft/recipe/compute'
import type { RecipeComputed } from '@forcemeat/craft/recipe/compute-schema'
import { judgeRecipe } from '../recipe/judge-recipe.ts'
import type { Finding, Measure } from '../rule.ts'
import { withAnalyses } from './analysed.ts'
import { judgeCurves, type JudgedChannel } from './curves.ts'
import { dryingEnds } from './end-of-process.ts'
import { standingOf, type BatchFacts, type CurveChannel } from './facts.ts'
import { factsWithRework, leastOfFresh } from './least-of-fresh.ts'
import type { DryJudged } from './dry.ts'
import type { FermentJudged } from './ferment.ts'
import type { MeatJudged } from './meat.ts'
import { recordFinding } from './own-rules.ts'
import { judgeSharedLogs } from './shared-logs.ts'
import type { SlowLogs } from './slow-facts.ts'
import { judgeSlow } from './slow.ts'
import { additivesOf } from './rework-additives.ts'
import { judgeRework } from './rework-allergens.ts'
import { withRework } from './rework-cure.ts'
import { judgeReworkUsed } from './rework-limits.ts'
import { judgeMaterials, judgeWeighed, weighedLines, withScales, type WeighedLine } from './weights.ts'

export type BatchJudgement = {
  readonly findings: readonly Finding[]
  readonly verdict: Verdict
  /** The batch reckoned from its weights; targets stand in where a line is not weighed yet. */
  readonly computed: RecipeComputed
  readonly measures: Readonly<Record<string, Measure>>
  readonly channels: readonly JudgedChannel[]
  /** How each lot of meat that may carry Trichinella stands; empty where the product is cooked. */
  readonly meats: readonly MeatJudged[]
  readonly ferment?: FermentJudged
  readonly dry?: DryJudged
}

/** What was weighed, one entry a lot, as the recipe's own reckoning takes it. */
const linesOf = (lines: readonly WeighedLine[]) =>
  lines.flatMap((l) => {
    const parts =
      l.parts.length > 0 ? l.parts : [{ kg: l.kg, ...(l.line.lot === undefined ? {} : { lot: l.line.lot }) }]
    return parts.map((p) => ({
      material: l.line.material,
      kg: p.kg,
      ...('lot' in p && p.lot !== undefined ? { lot: p.lot } : {}),
    }))
  })

function lotsOf(facts: BatchFacts) {
  return facts.lots.map(({ lot, material, fatPct, fatSdPct, collagenPct, costPerKg, leanAsSoldPct }) => ({
    lot,
    material,
    ...(fatPct === undefined ? {} : { fatPct }),
    ...(fatSdPct === undefined ? {} : { fatSdPct }),
    ...(collagenPct === undefined ? {} : { collagenPct }),
    ...(costPerKg === undefined ? {} : { costPerKg }),
    ...(leanAsSoldPct === undefined ? {} : { soldFatPct: 100 - leanAsSoldPct }),
  }))
}

/** Fat of the mix with the spread of the trims behind it, 95 %. */
function withTrimSpread(
  measures: Readonly<Record<string, Measure>>,
  computed: RecipeComputed,
): Record<string, Measure> {
  const sd = computed.fatSdPct
  if (sd === undefined) return { ...measures }
  const concentration =
    computed.totals.finishedKg === undefined ? 1 : computed.totals.totalKg / computed.totals.finishedKg
  const spread = (m: Measure | undefined, factor: number): Measure | undefined =>
    m && 'value' in m
      ? {
          ...m,
          value: m.value,
          low: Math.max(0, (m.low ?? m.value) - 1.96 * sd * factor),
          high: (m.high ?? m.value) + 1.96 * sd * factor,
        }
      : m
  const fat = spread(measures['fatPct'], concentration)
  const raw = spread(measures['rawFatPct'], 1)
  return { ...measures, ...(fat ? { fatPct: fat } : {}), ...(raw ? { rawFatPct: raw } : {}) }
}

function judgeUseBy(facts: BatchFacts, lines: readonly WeighedLine[]): Finding {
  const used = new Set(lines.flatMap((l) => (l.parts.length > 0 ? l.parts.map((p) => p.lot) : [l.line.lot])))
  const past = facts.lots.filter((l) => used.has(l.lot) && l.useBy !== undefined && l.useBy < facts.on)
  if (past.length === 0)
    return recordFinding('useBy', { verdict: 'pass', because: 'no lot used was past its date on the day' })
  return recordFinding('useBy', {
    verdict: 'fail',
    because: past.map((l) => `${l.lot} was good until ${l.useBy}`).join('; '),
  })
}

/** Instruments of the batch that a later check found wrong, and that nobody has dealt with for this batch. */
function judgeDoubt({ instruments }: BatchFacts): Finding[] {
  const doubted = instruments.filter((i) => i.inDoubt !== undefined)
  if (doubted.length === 0) return []
  return [
    recordFinding('doubt', {
      verdict: 'cannot-tell',
      because: doubted.map(standingOf).join('; '),
      settle: `say for this batch whether its readings stand, and why: ${doubted.map((i) => i.name).join(', ')}`,
    }),
  ]
}

/** What a plan would meet, it has not met yet. */
const asPlanned = (f: Finding): Finding =>
  f.verdict === 'pass'
    ? {
        ...f,
        verdict: 'cannot-tell',
        because: `as planned, not weighed yet: ${f.because}`,
        settle: 'weigh and record the batch',
      }
    : f

/**
 * Every finding of a batch, from its facts and the rules in force on its date: the record itself, weights with the error of their
 * scales, composition with the spread of its trims, the cook and chill at the worst probe; of a fermented or dried batch its degree-hours,
 * what had to die in it and how it ended; and, where it is not cooked, how its meat was made safe. What is missing or stale is `cannot-tell`.
 *
 * @param facts the batch as recorded
 * @param channels the core channels of the recorded curves as read from their files
 * @param logs the air of its chambers and the centre logs of its treatments, read from their files
 */
export function judgeBatch(
  facts: BatchFacts,
  channels: readonly CurveChannel[] = [],
  logs: SlowLogs = {},
): BatchJudgement {
  const lines = weighedLines(facts)
  const weighed = judgeWeighed(lines)
  const computed = computeRecipe({
    recipe: facts.recipeBody,
    meatKg: facts.meatKg,
    lots: lotsOf(facts),
    lines: linesOf(lines),
    on: facts.on,
  })
  const scaled = withScales(computed.measures, lines, facts, findMaterial)
  const rework = withRework(facts, additivesOf(facts.batch, computed, scaled, lines, facts, facts.recipeBody))
  const measures = withAnalyses(
    withTrimSpread({ ...scaled, ...rework?.measures }, computed),
    facts,
    dryingEnds(facts, logs.air),
  )
  const curves = judgeCurves(facts, computed, channels)
  const slow = judgeSlow(facts, lines, computed, { channels, curves: curves.findings, logs })
  const judge = (of: typeof measures) =>
    judgeRecipe({
      // How the meat was treated is judged by the lots themselves.
      facts: { ...(rework ? factsWithRework(computed.facts) : computed.facts), porkTreated: true },
      measures: of,
      on: facts.on,
      jurisdictions: facts.jurisdictions,
    })
  const recipe = rework
    ? leastOfFresh(judge(measures), judge({ ...measures, ...rework.fresh }), facts.on)
    : judge(measures)
  const findings = [
    weighed,
    ...judgeMaterials(facts, lines),
    judgeUseBy(facts, lines),
    ...judgeDoubt(facts),
    ...judgeSharedLogs(facts),
    ...judgeRework(facts, lines),
    ...judgeReworkUsed(facts, lines),
    ...(rework ? [rework.finding] : []),
    ...[...recipe, ...slow.meatFindings].map(weighed.verdict === 'pass' ? (f: Finding) => f : asPlanned),
    ...slow.heated,
    ...slow.findings,
  ]
  return {
    findings,
    verdict: overall(findings),
    computed: rework
      ? { ...computed, cure: { ...computed.cure, working: [...computed.cure.working, ...rework.working] } }
      : computed,
    measures,
    channels: curves.judged,
    meats: slow.meats,
    ...(slow.ferment ? { ferment: slow.ferment } : {}),
    ...(slow.dry ? { dry: slow.dry } : {}),
  }
}
