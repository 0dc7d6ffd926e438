import type { WorkingStep } from '../finding.ts'
import { crustRisk } from './crust.ts'
import type { CourseInput, CourseOutput } from './course-schema.ts'
import { startingDiffusivity } from './diffusivity.ts'
import { HOW_COURSE_WAS_CHECKED } from './how-checked.ts'
import { metBetween, readyByWeighing, type MetBetween } from './met-by-weighing.ts'
import { productOf, type Product } from './product.ts'
import { Z90, fitFactors, readyDay, type Fit, type Ready } from './ready.ts'
import { runCourse, type Run } from './run.ts'

/** Days after the planned stages that the series still shows, so that a ready day past them is on it. */
const SHOWN_AFTER_DAYS = 60

const percentWater = (water: number): number => (100 * water) / (1 + water)

/**
 * Course of a sausage in the drying room: moisture diffusing out of a cylinder that shrinks, through casing and air, to a rim whose water
 * activity follows salt, the meat's own solutes and protein; with the day its targets are met, as a band.
 *
 * @param input diameter mm, composition as stuffed, stages of air, targets; weighings of marked pieces where there are any
 * @returns state by the day, ready day (9 in 10), days of crust risk with the air that would be safe, factors with their intervals
 * @source docs/method/dry.md, with its errors against measured series
 */
export function course(input: CourseInput): CourseOutput {
  const { stages, weighings } = input
  const product = productOf(input)
  const settings = { product, stages }
  const fit = fitFactors(settings, weighings)
  const met = metBetween(input)
  const byCourse = readyDay(settings, fit, weighings?.at(-1)?.day ?? 0)
  const foretold = met === undefined ? byCourse : readyByWeighing(input, fit, byCourse, met)
  const against = contradiction(input, fit, foretold)
  const ready = against === undefined ? foretold : undefined
  const planned = stages.reduce((s, x) => s + x.days, 0)
  const shown = Math.max(planned, Math.min(ready?.likely ?? planned, planned + SHOWN_AFTER_DAYS))
  const run = runCourse({ product, stages, factors: fit.factors, days: daysTo(shown) })
  const risk = crustRisk(product, run)
  return {
    series: seriesOf(product, run),
    ...(ready === undefined ? {} : { readyDay: ready }),
    crustRisk: risk,
    factors: {
      fitted: fit.fitted,
      diffusivity: interval(fit, 0),
      film: interval(fit, 1),
      ...(fit.rmsPct === undefined ? {} : { rmsPct: fit.rmsPct }),
    },
    warnings: [...warningsOf(input, fit, ready, planned, against), ...wetterAir(run)],
    working: workingOf(input, product, run, fit, ready, met),
  }
}

/** Whole days from 0, and the end. */
function daysTo(end: number): number[] {
  const days = Array.from({ length: Math.floor(end + 1e-9) + 1 }, (_, i) => i)
  if (end - days.at(-1)! > 1e-6) days.push(end)
  return days
}

function seriesOf(product: Product, { at, isotherm }: Run): CourseOutput['series'] {
  return at.map((s, i) => {
    const before = at[i - 1]
    return {
      day: s.day,
      weightLossPct: s.lossPct,
      aw: isotherm.aw(s.meanWater),
      coreAw: isotherm.aw(s.coreWater),
      rimAw: isotherm.aw(s.rimWater),
      coreWaterPct: percentWater(s.coreWater),
      surfaceWaterPct: percentWater(s.rimWater),
      moistureToProtein: s.meanWater / product.proteinPerSolid,
      lossPctPerDay: before === undefined ? 0 : (s.lossPct - before.lossPct) / (s.day - before.day),
      diameterMm: 2000 * s.radiusM,
    }
  })
}

function interval({ factors, covariance }: Fit, i: 0 | 1) {
  const half = Z90 * Math.sqrt(covariance[i]![i]!)
  const at = factors[i]
  return { low: Math.exp(at - half), likely: Math.exp(at), high: Math.exp(at + half) }
}

/** Weighings further off the fitted course than this tell no date, points of loss. An assumption. */
const MOST_OFF_PCT = 3

/** Why the weighings and the course do not go together, so that no date is given; undefined where they do. */
function contradiction({ target, weighings }: CourseInput, fit: Fit, ready: Ready | undefined): string | undefined {
  if (fit.rmsPct !== undefined && fit.rmsPct > MOST_OFF_PCT)
    return `the weighings lie ${fit.rmsPct.toFixed(1)} points off any course: no date is given; look for a weighing or a room record that is wrong`
  const last = weighings?.at(-1)
  const short = last !== undefined && target.weightLossPct !== undefined && last.weightLossPct < target.weightLossPct
  if (short && ready !== undefined && ready.likely < last.day)
    return `the course would have met the target before day ${Number(last.day.toFixed(1))}, and the weighing of that day has not: no date is given`
  return undefined
}

function warningsOf(
  input: CourseInput,
  fit: Fit,
  ready: Ready | undefined,
  planned: number,
  against: string | undefined,
): string[] {
  const { composition, target, weighings, diameterMm } = input
  const { fatPct, saltPct, ashPct } = composition
  return [
    `an estimate, ${HOW_COURSE_WAS_CHECKED}: a date to plan by, never a reason to release`,
    ...(fit.fitted ? [] : ['no weighings yet: weigh three marked pieces now and then, and the date narrows']),
    ...(weighings && weighings.length < 3
      ? ['fewer than three weighings: the date still leans on published figures']
      : []),
    ...(against === undefined ? [] : [against]),
    ...(against === undefined && fit.rmsPct !== undefined && fit.rmsPct > 1.5
      ? [
          `the weighings lie ${fit.rmsPct.toFixed(1)} points off the fitted course: look for a weighing or a room record that is wrong`,
        ]
      : []),
    ...(saltPct === undefined
      ? [
          `no saltPct in the composition${ashPct === undefined ? '' : ' (ash alone does not say)'}: worked as unsalted, so every water activity comes out too high`,
        ]
      : []),
    ...(fatPct < 13 || fatPct > 26
      ? [`${fatPct} % fat lies outside the 13 to 25 % the diffusivity was published for`]
      : []),
    ...(diameterMm > 120 ? [`at ${diameterMm} mm nothing was published to check against`] : []),
    ...(aimless(target) ? ['no target is named, so no ready day is given'] : []),
    ...(ready === undefined && against === undefined && !aimless(target)
      ? ['the target is not met within two years in this air: the room is too moist for it, or the piece too thick']
      : []),
    ...(ready?.likely === 0 ? ['the target is met as stuffed: look at the target again'] : []),
    ...(ready !== undefined && ready.late === undefined
      ? ['a slow batch might never meet the target in this air, so no latest day is given']
      : []),
    ...(ready !== undefined && ready.likely > planned
      ? [`the stages end on day ${planned}; their last air is taken to go on until the target is met`]
      : []),
    ...(target.aw === undefined ? [] : ['water activity here is computed: the end is told by a checked meter']),
  ]
}

/** Points of loss a course may take back before it is told of. */
const TAKEN_UP_PCT = 0.2

/** Told where the air is so moist that the sausage takes up water: what condenses drips off, which the model does not know. */
function wetterAir({ at }: Run): string[] {
  let most = at[0]
  for (const s of at) {
    if (most === undefined || s.lossPct > most.lossPct) most = s
    if (s.lossPct < most.lossPct - TAKEN_UP_PCT)
      return [
        `from day ${Number(most.day.toFixed(1))} the sausage takes up water: air of ${s.air.rhPct} % is wetter than its rim; that is beyond what the model is for, and the weights after it are not to be believed`,
      ]
  }
  return []
}

const aimless = (target: CourseInput['target']): boolean => Object.values(target).every((v) => v === undefined)

function workingOf(
  input: CourseInput,
  product: Product,
  run: Run,
  fit: Fit,
  ready: Ready | undefined,
  met: MetBetween | undefined,
): WorkingStep[] {
  const first = input.stages[0]!
  const target = product.targetWater(run.isotherm)
  const start = startingDiffusivity(product.fatPct, first.tempC)
  return [
    { step: 'water as stuffed', expression: 'water / everything else', value: product.startWater, unit: 'kg/kg' },
    {
      step: 'water activity as stuffed',
      expression: 'salt and own solutes × protein × sugar',
      value: run.isotherm.aw(product.startWater),
      unit: '',
    },
    {
      step: 'diffusivity at the start',
      expression: `by fat ${product.fatPct} % and ${first.tempC} °C, published`,
      value: start,
      unit: 'm²/s',
    },
    {
      step: 'factor on the diffusivity',
      expression: fit.fitted ? 'fitted to the weighings' : 'published figure',
      value: Math.exp(fit.factors[0]),
      unit: '',
    },
    {
      step: 'factor on film and casing',
      expression: fit.fitted ? 'fitted to the weighings' : 'published figure',
      value: Math.exp(fit.factors[1]),
      unit: '',
    },
    ...(target === undefined
      ? []
      : [
          {
            step: 'mean water at which every target is met',
            expression: 'the driest of the targets',
            value: target,
            unit: 'kg/kg',
          },
          {
            step: 'weight loss at the target',
            expression: '100 × (1 − (1 + target) / (1 + start))',
            value: 100 * (1 - (1 + target) / (1 + product.startWater)),
            unit: '%',
          },
        ]),
    ...(met === undefined
      ? []
      : [
          {
            step: 'loss met by weighing',
            expression: `${Number(met.lossPct.toFixed(2))} % after day ${Number(met.afterDay.toFixed(2))}, at the latest on the day of the weighing that shows it`,
            value: met.byDay,
            unit: 'days',
          },
        ]),
    ...(ready === undefined
      ? []
      : [{ step: 'likely ready', expression: 'the course meets the target', value: ready.likely, unit: 'days' }]),
  ]
}
