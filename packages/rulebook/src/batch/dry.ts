import type { RecipeComputed } from '@forcemeat/craft/recipe/compute-schema'
import type { Stand } from '@forcemeat/craft/dry/stability'
import { judgeStability, stabilityClasses } from '../dry/judge.ts'
import type { Finding } from '../rule.ts'
import { judgeLoss, type LossJudged } from './dry-loss.ts'
import { notTheEnd, type NotTheEnd } from './end-of-process.ts'
import type { BatchFacts } from './facts.ts'
import { calibratedOn } from './instrument-days.ts'
import { dayOf } from './local-day.ts'
import { recordFinding } from './own-rules.ts'
import { phLevels, phReadings, type PhReading } from './ph-course.ts'

export type AwReading = {
  readonly taken: string
  readonly step: string
  readonly aw: number
  readonly tolerance: number
  readonly counts: boolean
  readonly because?: string
  readonly settle?: string
}

export type DryJudged = {
  readonly findings: readonly Finding[]
  readonly loss: LossJudged
  readonly aw: readonly AwReading[]
  /** What the end product was judged by. */
  readonly measures: { readonly ph?: Stand; readonly aw?: Stand; readonly moistureToProtein?: Stand }
  readonly class: 'shelf-stable' | 'perishable' | 'very-perishable' | 'cannot-tell'
  /** What the class's source says of storage. */
  readonly storage: string
  /** Every published class, limit and name held against the end product. */
  readonly stability: readonly Finding[]
  /** From the composition as weighed and the loss of the pieces; an estimate that decides nothing. */
  readonly computedMoistureToProtein?: number
}

export function awReadings(facts: BatchFacts): AwReading[] {
  return (facts.measures ?? [])
    .flatMap((m): AwReading[] => {
      if (m.what !== 'aw' || m.value === undefined) return []
      const trust = calibratedOn(facts, m.instrument, dayOf(facts, m.taken), 'salt-standard', m.value)
      const shared = { taken: m.taken, step: m.step, aw: m.value }
      return trust.ok
        ? [{ ...shared, tolerance: trust.tolerance ?? 0, counts: true }]
        : [{ ...shared, tolerance: 0, counts: false, because: trust.because, settle: trust.settle }]
    })
    .toSorted((a, b) => a.taken.localeCompare(b.taken))
}

/** Samples of one day at the kitchen are of one sampling: the highest of them stands. */
function awStand(facts: BatchFacts, readings: readonly AwReading[], early: NotTheEnd): Stand | undefined {
  // One taken too early never stands beside one of the end; alone it is shown, and proves nothing.
  const ended = readings.filter((r) => early(r) === undefined)
  const those = ended.length > 0 ? ended : readings
  const last = those.at(-1)
  if (!last) return undefined
  const together = those.filter((r) => dayOf(facts, r.taken) === dayOf(facts, last.taken))
  const highest = together.reduce((a, b) => (b.aw + b.tolerance > a.aw + a.tolerance ? b : a))
  const unproven = early(highest) ?? (highest.counts ? undefined : (highest.because ?? 'it does not count'))
  return {
    value: highest.aw,
    low: highest.aw - highest.tolerance,
    high: highest.aw + highest.tolerance,
    ...(unproven === undefined ? {} : { unproven }),
  }
}

/** The pH the product leaves with: it may rise while mould grows, so that one taken before the drying says nothing of the end. */
function phStand(readings: readonly PhReading[], early: NotTheEnd): Stand | undefined {
  const last = phLevels(readings).at(-1)
  if (!last) return undefined
  const before = early(last)
  const unproven = last.counts ? before && `of the pH: ${before}` : last.because
  return {
    value: last.ph,
    low: last.ph - last.tolerance,
    high: last.ph + last.tolerance,
    ...(unproven === undefined ? {} : { unproven }),
  }
}

/** The measured figures of the end product that count, and none that does not: what a target may be held met by. */
export function endMeasured(
  facts: BatchFacts,
  dryEndsAt?: number,
): { readonly aw?: number; readonly moistureToProtein?: number } {
  const early = notTheEnd(facts, dryEndsAt)
  const aw = awStand(facts, awReadings(facts), early)
  const ratio = ownMoistureToProtein(facts, undefined, early).stand?.value
  return {
    ...(aw && aw.unproven === undefined ? { aw: aw.value } : {}),
    ...(ratio === undefined ? {} : { moistureToProtein: ratio }),
  }
}

const placeOf: Readonly<Record<string, string>> = { 'US-home': 'US' }

/** Standards of a name whose moisture to protein is published, by what the recipe is sold under. */
const namesOf = (standards: readonly string[] = []): string | undefined => {
  const known = ['jerky', 'pepperoni', 'dry-salami', 'genoa', 'summer-sausage'] as const
  return known.find((n) => standards.some((s) => s.endsWith(`.${n}`)))
}

function classOf(findings: readonly Finding[]): Pick<DryJudged, 'class' | 'storage'> {
  for (const { class: name, rule, storage } of stabilityClasses.classes) {
    const verdict = findings.find((f) => f.rule === rule)?.verdict
    if (verdict === 'pass') return { class: name, storage }
    if (verdict !== 'fail')
      return { class: 'cannot-tell', storage: 'keep it as the least stable class until it is known' }
  }
  return { class: 'very-perishable', storage: stabilityClasses.otherwise }
}

function ownAw(facts: BatchFacts, aw: Stand | undefined, readings: readonly AwReading[], early: NotTheEnd): Finding[] {
  const target = facts.recipeBody.dry?.targetAw
  if (target === undefined) return []
  if (!aw)
    return [
      recordFinding('dryAw', {
        verdict: 'cannot-tell',
        because: `no water activity was measured; the recipe asks for ${target} or less`,
        settle: 'a water activity on a meter checked that day against a salt standard',
      }),
    ]
  const said = `water activity ${aw.value}; the recipe asks for ${target} or less`
  const ended = readings.some((r) => early(r) === undefined)
  if (ended && aw.low > target + 1e-9) return [recordFinding('dryAw', { verdict: 'fail', because: said })]
  if (aw.unproven !== undefined)
    return [
      recordFinding('dryAw', {
        verdict: 'cannot-tell',
        because: `${said}; but ${aw.unproven}`,
        settle: ended
          ? (readings.at(-1)?.settle ?? 'a reading that counts')
          : 'the water activity of the finished product',
      }),
    ]
  return [
    aw.high <= target + 1e-9
      ? recordFinding('dryAw', { verdict: 'pass', because: said })
      : recordFinding('dryAw', {
          verdict: 'cannot-tell',
          because: `${said}; it lies within the meter's error of it`,
          settle: 'more days, or a finer meter',
        }),
  ]
}

/** Ratios of moisture to protein that meat products have: meat as it grows is at about 3.5 to 5. Common practice, no source. */
const RATIOS = { low: 0.1, high: 10 } as const

function ownMoistureToProtein(
  facts: BatchFacts,
  computed: number | undefined,
  early: NotTheEnd,
): { stand?: Stand; findings: Finding[] } {
  const analyses = (facts.measures ?? [])
    .flatMap((m) =>
      m.what === 'moisture-protein' && m.value !== undefined && early(m) === undefined
        ? [{ at: Date.parse(m.taken), day: dayOf(facts, m.taken), value: m.value }]
        : [],
    )
    .toSorted((a, b) => a.at - b.at)
  const strange = analyses.find((a) => a.value < RATIOS.low || a.value > RATIOS.high)
  const real = analyses.filter((a) => a.value >= RATIOS.low && a.value <= RATIOS.high)
  // Of one sampling the worst counts.
  const last = real.filter((a) => a.day === real.at(-1)!.day)
  const analysed = last.length === 0 ? undefined : Math.max(...last.map((a) => a.value))
  const stand = analysed === undefined ? undefined : { value: analysed, low: analysed, high: analysed }
  const target = facts.recipeBody.dry?.targetMoistureToProtein
  const found = stand === undefined ? {} : { stand }
  if (target === undefined) return { ...found, findings: [] }
  if (analysed === undefined)
    return {
      findings: [
        recordFinding('moistureProtein', {
          verdict: 'cannot-tell',
          because: `${strange ? `${strange.value} is no ratio a sausage has` : 'the finished product was not analysed'}; the recipe asks for ${target}${computed === undefined ? '' : `, and the composition with the loss of the pieces gives about ${computed.toFixed(2)}`}`,
          settle: 'an analysis of the finished product',
        }),
      ],
    }
  const because = `${analysed} by analysis; the recipe asks for ${target} or less`
  return {
    ...found,
    findings: [recordFinding('moistureProtein', { verdict: analysed <= target + 1e-9 ? 'pass' : 'fail', because })],
  }
}

/** What ends the process: a class met by figures that count. Which storage follows from it is said with it. */
function endFinding(
  { class: stands, storage, stability }: Pick<DryJudged, 'class' | 'storage' | 'stability'>,
  measures: DryJudged['measures'],
  settles: readonly string[],
): Finding {
  if (stands === 'shelf-stable' || stands === 'perishable')
    return recordFinding('dryEnd', {
      verdict: 'pass',
      because: `${stands.replace('-', ' ')} by what was measured: keep it ${storage}`,
    })
  if (measures.ph === undefined && measures.aw === undefined)
    return recordFinding('dryEnd', {
      verdict: 'cannot-tell',
      because: 'neither water activity nor pH of the finished product was measured',
      settle: 'measure water activity and pH of the finished product with meters checked that day',
    })
  const rule = stabilityClasses.classes
    .map((c) => stability.find((f) => f.rule === c.rule))
    .find((f) => f && f.verdict !== 'pass')
  return recordFinding('dryEnd', {
    verdict: 'cannot-tell',
    because:
      stands === 'very-perishable'
        ? `meets no published class of pH and water activity (${rule?.because ?? ''})`
        : (rule?.because ?? 'no class can be told'),
    settle:
      stands === 'very-perishable'
        ? 'drier or more acid and measured again, or a study of this product through its shelf life on file'
        : [...new Set([...settles, rule?.settle].flatMap((s) => s ?? []))].join('; '),
  })
}

/**
 * The end of a fermented or dried batch: measured water activity and pH in the published classes, the recipe's own targets, the loss of the
 * marked pieces. A measured water activity wins over anything computed; a loss or a computed figure never passes what only a measurement can.
 *
 * @param dryEndsAt end of the drying's log, seconds from 1970
 */
export function judgeDry(
  facts: BatchFacts,
  computed: RecipeComputed,
  ph: readonly PhReading[] = phReadings(facts),
  dryEndsAt?: number,
): DryJudged {
  const early = notTheEnd(facts, dryEndsAt)
  const loss = judgeLoss(facts, computed.composition.waterPct)
  const aw = awReadings(facts)
  const awAt = awStand(facts, aw, early)
  const phAt = phStand(ph, early)
  const { waterPct, proteinPct } = computed.composition
  const mpComputed =
    waterPct === undefined || !proteinPct || loss.meanPct === undefined
      ? undefined
      : (waterPct - loss.meanPct) / proteinPct
  const mp = ownMoistureToProtein(facts, mpComputed, early)
  const measures = {
    ...(phAt ? { ph: phAt } : {}),
    ...(awAt ? { aw: awAt } : {}),
    ...(mp.stand ? { moistureToProtein: mp.stand } : {}),
  }
  const named = namesOf(facts.recipeBody.standards)
  const stability = judgeStability({
    measures,
    jurisdictions: [...new Set(facts.jurisdictions.map((j) => placeOf[j] ?? j))],
    ...(named === undefined ? {} : { named: named as 'jerky' }),
    on: facts.on,
  })
  const stands = classOf(stability)
  const settles = [aw.at(-1)?.settle, ph.at(-1)?.settle].flatMap((s) => s ?? [])
  const end = endFinding({ ...stands, stability }, measures, settles)
  return {
    findings: [
      end,
      ...ownAw(facts, awAt, aw, early),
      ...mp.findings,
      ...loss.findings,
      ...(Object.keys(measures).length > 0 ? stability : []),
    ],
    loss,
    aw,
    measures,
    ...stands,
    stability,
    ...(mpComputed === undefined ? {} : { computedMoistureToProtein: mpComputed }),
  }
}
