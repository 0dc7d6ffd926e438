import { air } from '@forcemeat/craft/heat/air'
import type { CookInput } from '@forcemeat/craft/heat/cook'
import type { Recipe } from '@forcemeat/craft/recipe/schema'
import { clock } from '../../plot/model.ts'
import { number, percent, temperature } from '../../ui/figures.ts'
import { compact } from '../../state/reader.ts'
import { mediumNames } from './cook-form.ts'
import type { PlanShown } from './plan-state.ts'

type Stage = CookInput['stages'][number]

const rhOf = (s: Stage): number | undefined =>
  s.rhPct ??
  (s.wetBulbC === undefined ? undefined : Number(air({ tempC: s.tempC, wetBulbC: s.wetBulbC }).rhPct.toFixed(1)))

/** Stages as a recipe keeps them. */
export const recipeStages = (stages: readonly Stage[]): NonNullable<NonNullable<Recipe['cook']>['stages']> =>
  stages.map(
    (s) =>
      compact({
        medium: s.medium,
        tempC: s.tempC,
        rhPct: rhOf(s),
        minutes: s.minutes,
        untilCoreC: s.untilCoreC,
      }) as NonNullable<NonNullable<Recipe['cook']>['stages']>[number],
  )

function stageLine(s: Stage, i: number): string {
  const parts = [
    `${i + 1}. ${mediumNames[s.medium]} ${temperature(s.tempC)}`,
    s.wetBulbC === undefined
      ? s.rhPct !== undefined && `${number(s.rhPct, 3)} % RH`
      : `wet bulb ${temperature(s.wetBulbC)}`,
    s.airSpeedMPerS !== undefined && `air ${number(s.airSpeedMPerS, 3)} m/s`,
    s.waterSpeedMPerS !== undefined && `water ${number(s.waterSpeedMPerS, 3)} m/s`,
    s.rampMinutes !== undefined && s.rampMinutes > 0 && `change over ${number(s.rampMinutes, 3)} min`,
    s.minutes !== undefined && `${number(s.minutes, 4)} min`,
    s.untilCoreC !== undefined && `${s.minutes === undefined ? '' : 'or '}until core ${temperature(s.untilCoreC)}`,
  ]
  return parts.filter(Boolean).join(', ')
}

/** The plan in words, for a batch's record and for the wall. */
export function planText({ request, result }: PlanShown): string {
  const { input } = request
  const met = result.targets.map(
    (t) =>
      `${t.label === 'core' ? `core ${temperature(request.targetCoreC)}` : t.label}: ${t.metMinute === undefined ? 'not met' : `after ${clock(t.metMinute)}`}`,
  )
  return [
    `Cook planned for ${number(input.diameterMm, 4)} mm, core ${temperature(input.startC)} at the start.`,
    ...input.stages.map(stageLine),
    `Predicted: ${met.join('; ')}; in all ${clock(result.cook.minutesTotal)}; loss ${percent(result.cook.weightLossPct, 2)}.`,
    'A prediction: it plans a cook and never releases a batch; a measured core does.',
  ].join('\n')
}
