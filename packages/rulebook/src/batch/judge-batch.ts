import { overall, type Verdict } from '@forcemeat/craft/finding'
import { findMaterial } from '@forcemeat/craft/materials/materials'
import { computeRecipe } from '@forcemeat/craft/recipe/compute'
import type { RecipeComputed } from '@forcemeat/craft/recipe/compute-schema'
import { judgeRecipe } from '../recipe/judge-recipe.ts'
import type { Finding, Measure } from '../rule.ts'
import { judgeCurves, type JudgedChannel } from './curves.ts'
import { standingOf, type BatchFacts, type CurveChannel } from './facts.ts'
import { recordFinding } from './own-rules.ts'
import { judgeWeighed, weighedLines, withScales, type WeighedLine } from './weights.ts'

export type BatchJudgement = {
  readonly findings: readonly Finding[]
  readonly verdict: Verdict
  /** The batch reckoned from its weights; targets stand in where a line is not weighed yet. */
  readonly computed: RecipeComputed
  readonly measures: Readonly<Record<string, Measure>>
  readonly channels: readonly JudgedChannel[]
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
  return facts.lots.map(({ lot, material, fatPct, fatSdPct, costPerKg, leanAsSoldPct }) => ({
    lot,
    material,
    ...(fatPct === undefined ? {} : { fatPct }),
    ...(fatSdPct === undefined ? {} : { fatSdPct }),
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

const allergensOf = (material: string): readonly string[] => findMaterial(material)?.allergens ?? []

/** Rework weighed in brings no allergen that the batch has not from its other lines. */
function judgeRework(facts: BatchFacts, lines: readonly WeighedLine[]): Finding[] {
  const used = lines.flatMap((l) =>
    (l.parts.length > 0 ? l.parts.map((p) => p.lot) : [l.line.lot]).map((lot) => ({ lot, line: l.line })),
  )
  const rework = facts.lots.flatMap((l) =>
    l.origin && 'batch' in l.origin && used.some((u) => u.lot === l.lot) ? [{ ...l, origin: l.origin }] : [],
  )
  if (rework.length === 0) return []
  const codes = new Set(rework.map((r) => r.lot))
  const own = new Set(
    used.filter((u) => u.lot === undefined || !codes.has(u.lot)).flatMap((u) => allergensOf(u.line.material)),
  )
  const unknown = rework.filter((r) => r.origin.allergens === undefined)
  const strange = rework.flatMap((r) =>
    (r.origin.allergens ?? []).filter((a) => !own.has(a)).map((a) => `${a} by ${r.lot} (out of ${r.origin.batch})`),
  )
  if (strange.length > 0)
    return [recordFinding('rework', { verdict: 'fail', because: `brought in by rework alone: ${strange.join('; ')}` })]
  if (unknown.length > 0)
    return [
      recordFinding('rework', {
        verdict: 'cannot-tell',
        because: `the allergens of ${unknown.map((r) => r.lot).join(', ')} are not recorded`,
        settle: 'correct the entry of the rework with the allergens of its batch, or say that it has none',
      }),
    ]
  return [
    recordFinding('rework', {
      verdict: 'pass',
      because: `${rework.map((r) => r.lot).join(', ')}: no allergen that is not in the batch`,
    }),
  ]
}

/** Papers that speak of trichinae: freezing, a certified herd, a test. */
const TRICHINAE_PAPER = /freez|frozen|trichin|certif|tested/i

/** Whether every pork lot weighed in has a paper on how it was made safe; not known where one has none. */
function porkTreated(facts: BatchFacts, lines: readonly WeighedLine[]): true | undefined {
  const pork = lines.filter((l) => ['pork', 'wild-boar'].includes(findMaterial(l.line.material)?.species ?? ''))
  const lots = pork.flatMap((l) => (l.parts.length > 0 ? l.parts.map((p) => p.lot) : [l.line.lot]))
  const papered = (lot: string | undefined): boolean =>
    facts.lots.find((l) => l.lot === lot)?.documents?.some((d) => TRICHINAE_PAPER.test(d.kind)) === true
  return lots.length > 0 && lots.every(papered) ? true : undefined
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
 * scales, composition with the spread of its trims, and the cook and chill at the worst probe. What is missing or stale is `cannot-tell`.
 *
 * @param facts the batch as recorded
 * @param channels the recorded curves as read from their files
 */
export function judgeBatch(facts: BatchFacts, channels: readonly CurveChannel[] = []): BatchJudgement {
  const lines = weighedLines(facts)
  const weighed = judgeWeighed(lines)
  const computed = computeRecipe({
    recipe: facts.recipeBody,
    meatKg: facts.meatKg,
    lots: lotsOf(facts),
    lines: linesOf(lines),
    on: facts.on,
  })
  const measures = withTrimSpread(withScales(computed.measures, lines, facts, findMaterial), computed)
  const recipe = judgeRecipe({
    facts: { ...computed.facts, porkTreated: porkTreated(facts, lines) },
    measures,
    on: facts.on,
    jurisdictions: facts.jurisdictions,
  })
  const curves = judgeCurves(facts, computed, channels)
  const slow = facts.recipeBody.kind === 'fermented' || facts.recipeBody.kind === 'dried'
  const findings = [
    weighed,
    judgeUseBy(facts, lines),
    ...judgeDoubt(facts),
    ...judgeRework(facts, lines),
    ...(weighed.verdict === 'pass' ? recipe : recipe.map(asPlanned)),
    ...curves.findings,
    ...(slow
      ? [
          recordFinding('fermentLog', {
            verdict: 'cannot-tell',
            because: 'the degree-hours and the end of drying of this batch are not proven by its record',
            settle:
              'judge the chamber log with the pH readings, and measure the end of drying; hold until a qualified person has signed both',
          }),
        ]
      : []),
  ]
  return { findings, verdict: overall(findings), computed, measures, channels: curves.judged }
}
