import { stability } from '@forcemeat/craft/dry/stability'
import type { Finding } from '@forcemeat/craft/finding'
import type { AcidOf } from '@forcemeat/craft/recipe/ferment-dry/acid-of'
import type { DryingOf } from '@forcemeat/craft/recipe/ferment-dry/drying-of'
import type { FermentDry } from '@forcemeat/craft/recipe/ferment-dry/ferment-dry'
import type { Recipe } from '@forcemeat/craft/recipe/schema'
import { canDecide } from '@forcemeat/craft/source'
import { DEGREE_HOURS_PH, LOSS_APART_PCT, OVERSHOOT_PH, plan, plannedHours } from '../../data/ferment/plan.ts'
import { heading } from '../evaluate.ts'
import { hoursAllowed, type HoursAllowed } from '../ferment/hours-allowed.ts'
import type { Rule } from '../rule.ts'

type Told = Pick<Finding, 'verdict' | 'because'> & Partial<Pick<Finding, 'settle' | 'measured' | 'limit'>>
const say = (rule: Rule, told: Told): Finding => ({ ...heading(rule, rule.values[0]!), ...told })
const two = (x: number): string => x.toFixed(2)
const short = (x: number): string => String(Number(x.toPrecision(3)))

function ofAcid(acid: AcidOf): Finding[] {
  if (!acid.known) return [say(plan.reaches, { verdict: 'cannot-tell', because: acid.because, settle: acid.settle })]
  const { endPh, targetPh, reaches, asked, sugars } = acid
  const what = [
    ...sugars.map((s) => `${short(s.pct)} % sugar of ${s.name}`),
    ...((asked.gdlPct ?? 0) > 0 ? [`${short(asked.gdlPct!)} % glucono-delta-lactone`] : []),
  ].join(', ')
  const band = `end pH ${two(endPh.low)} to ${two(endPh.high)}, likely ${two(endPh.likely)}, from ${what} at ${short(asked.leanPct)} % lean and pH ${two(asked.startPh)}`
  const evidence = acid.evidence.map((e) => `${e.source} (${e.mark})`).join('; ')
  const figures = { measured: endPh.likely, limit: targetPh }
  const settle = `the pH of a batch, with a meter calibrated that day. The band rests on: ${evidence}`
  // The band itself never passes anything: only a measured pH does.
  const reach: Told =
    reaches === 'no'
      ? {
          verdict: 'fail',
          because: `${band}: too little acid for pH ${targetPh}`,
          settle: `more sugar or acidulant, or another target; then ${settle}`,
        }
      : {
          verdict: 'cannot-tell',
          because: `${band}: ${reaches === 'yes' ? `all of it at or under pH ${targetPh}, and still only a band` : `it may stop above pH ${targetPh}`}`,
          settle,
        }
  const over = targetPh - endPh.likely
  return [
    say(plan.reaches, { ...figures, ...reach }),
    ...(over > OVERSHOOT_PH
      ? [
          say(plan.overshoots, {
            ...figures,
            verdict: endPh.high < targetPh - OVERSHOOT_PH ? 'fail' : 'cannot-tell',
            because: `${band}: likely ${two(over)} under the pH ${targetPh} it is to be ended at`,
            settle: `less sugar, or cooling it down at pH ${targetPh}; then ${settle}`,
          }),
        ]
      : []),
  ]
}

function ofHours(allowed: HoursAllowed, targetPh: number): Finding {
  const rule = plannedHours.find((r) => r.jurisdiction === allowed.jurisdiction)!
  const { hoursAtHighest, highestC, limit, unit, planned, usedUpAtHour, limitIncluded, source } = allowed
  const head = heading(rule, { source })
  if (hoursAtHighest === undefined)
    return {
      ...head,
      verdict: 'cannot-tell',
      because: `at ${short(highestC)} °C no degree-hours are counted (base ${short(allowed.baseC)} °C); the log of the batch has to show that it stayed there`,
      settle: 'the log of the batch',
    }
  const plain = `at ${short(highestC)} °C: ${limitIncluded ? 'at most' : 'less than'} ${short(hoursAtHighest)} h to pH ${DEGREE_HOURS_PH} (${limit} ${unit})`
  const over =
    usedUpAtHour === undefined
      ? ''
      : `; the plan of ${short(planned)} ${unit} uses them up at hour ${short(usedUpAtHour)}`
  const target =
    targetPh > DEGREE_HOURS_PH
      ? `; ended at pH ${targetPh} the count never stops, for it runs to pH ${DEGREE_HOURS_PH}`
      : ''
  const memory = canDecide(source.mark) ? '' : '; this limit is from memory'
  return {
    ...head,
    measured: hoursAtHighest,
    verdict: 'cannot-tell',
    because: plain + over + target + memory,
    settle: `pH ${DEGREE_HOURS_PH} or less measured before hour ${short(Math.min(hoursAtHighest, usedUpAtHour ?? Infinity))}, and the log of the batch`,
  }
}

function ofTargets(drying: Extract<DryingOf, { known: true }>): Finding[] {
  const { atLoss, lossForAw, lossForMoistureToProtein, course } = drying
  const asks = [
    ...(lossForMoistureToProtein === undefined
      ? []
      : [
          {
            loss: lossForMoistureToProtein,
            because: `a loss of ${short(atLoss.lossPct)} % leaves ${two(atLoss.moistureToProtein)} kg of water per kg of protein; ${two(course.target.moistureToProtein!)} takes ${short(lossForMoistureToProtein)} %`,
          },
        ]),
    ...(lossForAw === undefined
      ? []
      : [
          {
            loss: lossForAw,
            because: `a loss of ${short(atLoss.lossPct)} % leaves a water activity near ${two(atLoss.aw)}; ${two(course.target.aw!)} takes about ${short(lossForAw)} % (computed, on the wet side)`,
          },
        ]),
  ]
  return asks
    .filter((a) => Math.abs(a.loss - atLoss.lossPct) > LOSS_APART_PCT)
    .map((a) =>
      say(plan.agree, {
        verdict: 'cannot-tell',
        measured: atLoss.lossPct,
        limit: a.loss,
        because: `${a.because}; the targets do not agree, and the driest of them decides the day`,
        settle: 'targets that agree, or a batch dried and measured',
      }),
    )
}

function ofStorage({ ferment, dry }: Recipe, drying: DryingOf | undefined): Finding {
  const ph = ferment?.targetPh
  const aw = dry?.targetAw
  if (ph === undefined && aw === undefined) {
    const near = drying?.known ? `; at its loss the water activity computes near ${two(drying.atLoss.aw)}` : ''
    return say(plan.storage, {
      verdict: 'cannot-tell',
      because: `the recipe names no pH and no water activity to reach${near}: until both are measured the label can claim no storage but the coldest`,
      settle: 'the pH and the water activity the product is to reach, and both measured at the end',
    })
  }
  const met = stability({
    ...(ph === undefined ? {} : { ph }),
    ...(aw === undefined ? {} : { aw }),
  })
  const named = [...(ph === undefined ? [] : [`pH ${ph}`]), ...(aw === undefined ? [] : [`water activity ${aw}`])].join(
    ' and ',
  )
  const says =
    met.class === 'cannot-tell'
      ? `${named} alone does not tell the class: ${met.storage}`
      : met.class === 'shelf-stable'
        ? `if ${named} are measured, a published combination for shelf-stable products is met: kept ${met.storage}`
        : `${named} meet no published combination for shelf-stable products (${met.class.replace('-', ' ')}): the label may claim no more than kept ${met.storage}`
  return say(plan.storage, {
    verdict: 'cannot-tell',
    because: says,
    settle: `${ph === undefined || aw === undefined ? 'the target that is missing; then ' : ''}pH and water activity of the finished product with checked meters, and the law of the place`,
  })
}

/**
 * What can be told of a planned fermentation and drying before anything is made, as advice: whether the recipe's own sugars reach or overshoot
 * its pH, how long it may stay at its warmest stage, whether its targets agree, and what storage they would allow. A model never passes
 * anything, so no finding here is a pass. Systems of degree-hours are those of the places asked for; where none has one, all published ones.
 */
export function judgeFermentAndDry(
  recipe: Recipe,
  { acid, drying }: FermentDry,
  jurisdictions: readonly string[],
): Finding[] {
  if (recipe.kind !== 'fermented' && recipe.kind !== 'dried' && !recipe.ferment && !recipe.dry) return []
  const hours = hoursAllowed(recipe.ferment?.stages ?? [])
  const own = hours.filter((h) => jurisdictions.includes(h.jurisdiction))
  const noStages =
    recipe.ferment !== undefined && hours.length === 0
      ? plannedHours
          .filter((r) => jurisdictions.includes(r.jurisdiction))
          .map((r) =>
            say(r, {
              verdict: 'cannot-tell',
              because: 'the recipe does not say how warm it ferments',
              settle: 'fermentation stages with hours and temperature',
            }),
          )
      : []
  return [
    ...(acid ? ofAcid(acid) : []),
    ...noStages,
    ...(own.length > 0 ? own : hours).map((h) => ofHours(h, recipe.ferment!.targetPh)),
    ...(drying?.known ? ofTargets(drying) : []),
    ...(drying && !drying.known
      ? [say(plan.agree, { verdict: 'cannot-tell', because: drying.because, settle: drying.settle })]
      : []),
    ofStorage(recipe, drying),
  ]
}
