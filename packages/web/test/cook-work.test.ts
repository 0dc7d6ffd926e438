import { cook } from '@forcemeat/craft/heat/cook'
import { describe, expect, it } from 'vitest'
import { followCook, type LiveRequest } from '../src/work/cook-live.ts'
import { planCook } from '../src/work/cook-plan.ts'

const piece = {
  diameterMm: 60,
  composition: { waterPct: 58, proteinPct: 14, fatPct: 24, ashPct: 3 },
  startC: 8,
}
const smoke = { medium: 'air' as const, tempC: 60, rhPct: 40, minutes: 60 }
const cookOn = { medium: 'air' as const, tempC: 80, rhPct: 65, untilCoreC: 70 }
const product = {
  lethality: { species: 'meat' as const, fatPct: 24 },
  cooling: { cured: true, nitritePpm: 140, erythorbatePpm: 300, saltPct: 2, waterPct: 58 },
}

describe('a planned cook', () => {
  const plan = planCook({
    input: { ...piece, stages: [smoke, cookOn, { medium: 'ice-water', tempC: 1, untilCoreC: 4.4 }] },
    targetCoreC: 70,
    product,
  })

  it('says when the core and the log reduction of the product are met, the reduction never falling', () => {
    const [core, kill] = plan.targets
    expect(core!.metMinute).toBeCloseTo(plan.cook.stages[1]!.endMinute, 0)
    expect(kill!.label).toContain('6.5-log')
    expect(kill!.metMinute).toBeLessThan(core!.metMinute!)
    expect(plan.logReduction.every((v, i) => i === 0 || v >= plan.logReduction[i - 1]!)).toBe(true)
  })

  it('shows what the tables and the cooling options would say of such a core, and the stages of the option that decides', () => {
    expect(plan.ifMeasured.find((f) => f.rule === 'us.fsis.lethality.meat.6.5-log')!.verdict).toBe('pass')
    expect(plan.chill!.verdict).toBe('pass')
    expect(plan.chill!.spans.every((s) => s.finished && s.toMinute - s.fromMinute <= s.maxMinutes)).toBe(true)
  })

  it('has no chill where the plan has none', () => {
    expect(planCook({ input: { ...piece, stages: [smoke, cookOn] }, targetCoreC: 70, product }).chill).toBeUndefined()
  })

  it('leaves a target open that the schedule does not meet', () => {
    const short = planCook({ input: { ...piece, stages: [smoke] }, targetCoreC: 70, product })
    expect(short.targets.every((t) => t.metMinute === undefined)).toBe(true)
  })
})

const chillIn = (stage: { medium: 'air' | 'ice-water'; tempC: number; airSpeedMPerS?: number }) => ({
  ...stage,
  minutes: 900,
})
/** Readings of a house whose films differ from the correlations, a reading a minute, rounded as a logger prints. */
function readings(stages: LiveRequest['piece']['stages'], until: number, filmFactor = 0.8) {
  const { series } = cook({ ...piece, filmFactor, stages })
  const to = series.filter((p) => p.minute <= until && Number.isInteger(p.minute))
  return {
    core: to.map((p) => ({ minute: p.minute, tempC: Math.round(10 * p.coreC) / 10 })),
    house: to.map((p) => ({ minute: p.minute, tempC: p.houseC })),
    truth: series,
  }
}

describe('a cook that is followed', () => {
  const stages = [smoke, cookOn, chillIn({ medium: 'ice-water', tempC: 1 })]
  const { core, house, truth } = readings(stages, 110)
  const live = followCook({
    piece: { ...piece, stages },
    core,
    house,
    targetCoreC: 70,
    product,
    toleranceC: 0.5,
    holds: [0, 10, 30],
  })

  it('predicts the time to the target within its band', () => {
    const met = truth.find((p) => p.coreC >= 70)!.minute - 110
    const t = live.fit.minutesToTargetC!
    expect(t.state).toBe('predicted')
    expect(t.early!).toBeLessThanOrEqual(met + 0.5)
    expect(t.late ?? Infinity).toBeGreaterThanOrEqual(met - 0.5)
    expect(Math.abs(t.likely! - met)).toBeLessThan(3)
  })

  it('gives more log reduction the longer it is held, and less at the poor end', () => {
    const logs = live.choices.map((c) => c.logLikely)
    expect(logs).toEqual(logs.toSorted((a, b) => a - b))
    for (const c of live.choices) expect(c.logPoor).toBeLessThanOrEqual(c.logLikely)
    expect(live.choices[0]!.peakC).toBeGreaterThan(live.nowC - 0.2)
  })

  it('says before the chill how it will stand', () => {
    expect(live.cooling).toBe(false)
    expect(live.chill!.likely).toBe('pass')
  })
})

describe('a chill that will miss its window', () => {
  const stages = [smoke, cookOn, chillIn({ medium: 'air', tempC: 12, airSpeedMPerS: 0.2 })]
  const { core, house, truth } = readings(stages, 0)
  const hot = truth.find((p) => p.coreC >= 70)!.minute
  const uncured = { ...product, cooling: { cured: false } }

  it('is told while there is time to act, with what would still meet it', () => {
    const now = Math.round(hot) + 60
    const seen = readings(stages, now)
    const live = followCook({
      piece: { ...piece, stages },
      core: seen.core,
      house: seen.house,
      product: uncured,
      toleranceC: 0.5,
      holds: [],
    })
    expect(core.length + house.length).toBeGreaterThan(0)
    expect(live.cooling).toBe(true)
    expect(live.chill!.likely, live.chill!.because).toBe('fail')
    const first = live.chill!.options.find((o) => o.rule === 'us.fsis.cooling.option-1')!
    expect(first.minutesLeft!).toBeGreaterThan(0)
    expect(live.chill!.actions[0]).toMatchObject({ label: 'Into ice water now', verdict: 'pass' })
  })

  it('believes the logged house, not the stage as planned', () => {
    const planned = [smoke, cookOn, chillIn({ medium: 'air', tempC: 0, airSpeedMPerS: 0.2 })]
    const seen = readings(stages, Math.round(hot) + 60)
    const live = followCook({
      piece: { ...piece, stages: planned },
      core: seen.core,
      house: seen.house,
      product: uncured,
      toleranceC: 0.5,
      holds: [],
    })
    expect(live.houseOff).toEqual({ plannedC: 0, loggedC: 12 })
    expect(live.chill!.likely, live.chill!.because).toBe('fail')
  })

  it('gives no good word where the model does not follow the readings', () => {
    const thick = { ...piece, diameterMm: 110 }
    const seen = readings([smoke, cookOn, chillIn({ medium: 'ice-water', tempC: 1 })], Math.round(hot) + 8, 1)
    const live = followCook({
      piece: { ...thick, stages: [smoke, cookOn, chillIn({ medium: 'ice-water', tempC: 1 })] },
      core: seen.core,
      house: seen.house,
      product: uncured,
      toleranceC: 0.5,
      holds: [],
    })
    expect(live.fit.rmsC).toBeGreaterThan(1.5)
    expect(live.trusted).toBe(false)
    expect(live.chill!.likely).not.toBe('pass')
  })

  it('needs no other action where it goes well', () => {
    const good = [smoke, cookOn, chillIn({ medium: 'ice-water', tempC: 1 })]
    const seen = readings(good, Math.round(hot) + 8, 1)
    const live = followCook({
      piece: { ...piece, stages: good },
      core: seen.core,
      house: seen.house,
      product: uncured,
      toleranceC: 0.5,
      holds: [],
    })
    expect(live.chill!.likely).toBe('pass')
    expect(live.chill!.actions).toEqual([])
  })
})
