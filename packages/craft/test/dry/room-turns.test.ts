import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { dryCalculations } from '@forcemeat/craft/dry/calculations'
import { room } from '@forcemeat/craft/dry/room'
import { roomTurns } from '@forcemeat/craft/dry/room-turns'
import type { TurnsInput } from '@forcemeat/craft/dry/room-turns-schema'

const air = { tempC: 20, rhPct: 60 }
const unit = { airM3PerHour: 1000, coilTempC: 10 }
/** What the unit takes, by the room's own balance, which is checked against psychrometric tables elsewhere. */
const takes = room({
  room: air,
  unit,
  batches: [{ name: 'x', kg: 1, inDay: 0, lossPctPerDay: 1 }],
}).days[0]!.removedKgPerDay
/** A batch that gives off a share of what is taken, for so many days. */
const batch = (name: string, share: number, inDay: number, days: number) => ({
  name,
  kg: takes * share * 100,
  inDay,
  lossPctPerDay: 1,
  outDay: inDay + days,
})
const base: TurnsInput = {
  room: air,
  unit,
  batches: [batch('hangs', 0.6, 0, 10)],
  planned: [batch('waits', 0.6, 2, 8)],
  days: 30,
}

describe('turns in a drying room', () => {
  it('move a batch to the first day on which the water of all fits: the day the one before comes out', () => {
    const { turns, days } = roomTurns(base)
    expect(turns[0]).toMatchObject({ name: 'waits', askedDay: 2, inDay: 10, outDay: 18 })
    expect(turns[0]!.because).toMatch(/moved from day 2 to day 10.*water/)
    for (const d of days) expect(d.loadKg).toBeLessThanOrEqual(takes * (1 + 1e-9))
    expect(days[9]!.loadKg).toBeCloseTo(0.6 * takes, 9)
    expect(days[17]!.loadKg).toBeCloseTo(0.6 * takes, 9)
    expect(days[18]!.loadKg).toBe(0)
  })

  it('leave a batch on its day where it fits', () => {
    const { turns } = roomTurns({ ...base, planned: [batch('small', 0.3, 2, 8)] })
    expect(turns[0]).toMatchObject({ inDay: 2, because: 'fits on the day asked for' })
  })

  it('hold the weight in the room to its capacity', () => {
    const heavy = base.batches[0]!.kg
    const { turns } = roomTurns({ ...base, planned: [batch('small', 0.3, 2, 8)], capacityKg: heavy * 1.2 })
    expect(turns[0]).toMatchObject({ inDay: 10 })
    expect(turns[0]!.because).toMatch(/weight/)
  })

  it('give no turn to a batch that is too wet for the unit alone, or where no day is left, and say why', () => {
    const { turns } = roomTurns({ ...base, planned: [batch('wet', 1.2, 2, 8), batch('no day', 0.6, 2, 8)], days: 9 })
    expect(turns.map((t) => t.inDay)).toEqual([undefined, undefined])
    expect(turns[0]!.because).toMatch(/alone it gives off/)
    expect(turns[1]!.because).toMatch(/no day within the 9 days/)
  })

  it('without a unit hold nothing against the water, and say so', () => {
    const { unit: _, ...none } = base
    const { turns, warnings, days, balance } = roomTurns(none)
    expect(turns[0]).toMatchObject({ inDay: 2 })
    expect([days[0]!.removedKg, balance]).toEqual([undefined, undefined])
    expect(warnings.join()).toMatch(/no unit is given/)
  })

  it('tell from when a batch is at risk of a crust, moved with it', () => {
    const piece = {
      diameterMm: 60,
      composition: { waterPct: 57, proteinPct: 16, fatPct: 23, saltPct: 2.8 },
      target: { weightLossPct: 30 },
    }
    const dry = { tempC: 14, rhPct: 60, airSpeedMPerS: 0.5 }
    const at = (inDay: number) =>
      roomTurns({ room: dry, batches: [], planned: [{ name: 'P', kg: 10, inDay, piece }], days: 60 }).batches[0]!
    expect(at(0).crustRiskFrom).toBeDefined()
    expect(at(7).crustRiskFrom! - at(0).crustRiskFrom!).toBeCloseTo(7, 6)
  })

  it('never load the unit beyond what it takes on a day a planned batch is in, whatever waits', () => {
    const waiting = fc.array(
      fc.record({
        share: fc.double({ min: 0.05, max: 1.3, noNaN: true }),
        day: fc.integer({ min: 0, max: 20 }),
        stay: fc.integer({ min: 1, max: 25 }),
      }),
      { minLength: 1, maxLength: 8 },
    )
    fc.assert(
      fc.property(waiting, (rows) => {
        const { turns, days } = roomTurns({
          ...base,
          planned: rows.map((r, i) => batch(`B${i}`, r.share, r.day, r.stay)),
          days: 40,
        })
        for (const d of days) expect(d.loadKg).toBeLessThanOrEqual(takes * (1 + 1e-6))
        for (const t of turns) if (t.inDay !== undefined) expect(t.inDay).toBeGreaterThanOrEqual(t.askedDay)
      }),
      { numRuns: 60 },
    )
  })

  it('stand in the registry, with the water of the balance the same as by the room itself', () => {
    const turns = dryCalculations.find((c) => c.name === 'dry.turns')!
    const r = roomTurns(base)
    expect(turns.run(base)).toEqual(r)
    expect(r.balance!.days.map((d) => d.loadKgPerDay)).toEqual(r.days.map((d) => d.loadKg))
    expect(() => turns.run({ ...base, capacityKg: -1 })).toThrow(/capacityKg/)
  })
})
