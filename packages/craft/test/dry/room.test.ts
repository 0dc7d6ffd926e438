import { describe, expect, it } from 'vitest'
import { InvalidInput } from '@forcemeat/craft/calculation'
import { calculations } from '@forcemeat/craft/calculations'
import { room } from '@forcemeat/craft/dry/room'
import type { RoomInput } from '@forcemeat/craft/dry/room-schema'

const base: RoomInput = {
  room: { tempC: 20, rhPct: 60 },
  unit: { airM3PerHour: 1000, coilTempC: 10 },
  batches: [{ name: 'one', kg: 500, inDay: 0, lossPctPerDay: 1, outDay: 10 }],
  days: 14,
}
const piece = {
  diameterMm: 40,
  composition: { waterPct: 57, proteinPct: 16, fatPct: 23, saltPct: 2.8 },
  target: { weightLossPct: 30 },
}

describe('moisture a unit takes', () => {
  // ASHRAE Handbook—Fundamentals, table of moist air at sea level (from memory): saturated air holds 7.661 g/kg at 10 °C and 14.758 g/kg at 20 °C. At 20 °C
  // and 60 % the vapour pressure is 0.6 × 2338.8 Pa, so 8.73 g/kg; 0.3 % for the table's enhancement factor, left out here.
  it('is dry air times the fall of the humidity ratio over the coil, with the ratios of the tables', () => {
    const { working, unitKgPerDay } = room(base)
    const of = (step: string) => working.find((w) => w.step === step)!.value
    expect(of('water in the room air')).toBeCloseTo(8.73, 1)
    expect(Math.abs(of('water in the air off the coil') / 7.661 - 1)).toBeLessThan(0.006)
    // 24 000 m³ × 1.19 kg/m³ (air at 20 °C, 60 %: 0.842 m³ per kg of dry air, the same table) × 1.10 g/kg.
    expect(of('dry air through the unit')).toBeCloseTo(24_000 / 0.842, -2)
    expect(unitKgPerDay).toBeCloseTo((24_000 / 0.842) * (8.73e-3 - 7.63e-3), -0.5)
  })
  it('is nothing where the coil is no drier than the room, and that is said', () => {
    const r = room({ ...base, unit: { airM3PerHour: 1000, coilTempC: 15 } })
    expect(r.unitKgPerDay).toBe(0)
    expect(r.enough).toBe(false)
    expect(r.warnings.join()).toMatch(/no drier than the room/)
    expect(r.days[0]!.settlesAtRhPct).toBeGreaterThan(60)
  })
  it('falls by what moist fresh air brings in', () => {
    const r = room({ ...base, freshAir: { m3PerHour: 200, tempC: 25, rhPct: 80 } })
    expect(r.freshAirKgPerDay).toBeLessThan(0)
    expect(r.days[0]!.removedKgPerDay).toBeCloseTo(r.unitKgPerDay + r.freshAirKgPerDay, 9)
  })
  it('settles where load and removal meet: at the set humidity when they are equal there', () => {
    const { unitKgPerDay } = room(base)
    const r = room({ ...base, batches: [{ name: 'equal', kg: unitKgPerDay * 100, inDay: 0, lossPctPerDay: 1 }] })
    expect(r.days[0]!.settlesAtRhPct).toBeCloseTo(60, 6)
  })
})

describe('moisture the batches give off', () => {
  it('adds up to what was lost: 1 % a day of 500 kg for ten days is 50 kg', () => {
    const { days } = room(base)
    expect(days.reduce((s, d) => s + d.loadKgPerDay, 0)).toBeCloseTo(50, 9)
    expect(days[10]!.loadKgPerDay).toBe(0)
  })
  it('adds up to the target of a modelled piece between its days in and out', () => {
    const r = room({ ...base, batches: [{ name: 'dried', kg: 200, inDay: 2, piece }], days: 120 })
    const out = r.batches[0]!.outDay!
    expect(out).toBeGreaterThan(7)
    expect(out).toBeLessThan(118)
    expect(r.days.reduce((s, d) => s + d.loadKgPerDay, 0)).toBeCloseTo(200 * 0.3, 0)
    expect(r.days[0]!.loadKgPerDay).toBe(0)
  })
  it('counts a batch that comes from fermenting with what it lost before', () => {
    const fresh = room({ ...base, batches: [{ name: 'x', kg: 200, inDay: 0, piece }] }).batches[0]!
    const begun = room({
      ...base,
      batches: [{ name: 'x', kg: 200, inDay: 0, piece: { ...piece, before: [{ days: 5, tempC: 22, rhPct: 80 }] } }],
    }).batches[0]!
    expect(begun.outDay!).toBeLessThan(fresh.outDay!)
  })
  it('names the batch whose rim outruns its core, and the room that is too small', () => {
    const r = room({
      ...base,
      unit: { airM3PerHour: 50, coilTempC: 10 },
      batches: [{ name: 'thick', kg: 2000, inDay: 0, piece: { ...piece, diameterMm: 90 } }],
    })
    expect(r.warnings.join('\n')).toMatch(/thick: its rim dries faster/)
    expect(r.warnings.join('\n')).toMatch(/give off more than is taken away/)
    expect(r.enough).toBe(false)
  })
  it('turns its peak into latent heat: 1 kg/day at 20 °C is 28.4 W', () => {
    const r = room(base)
    expect((1000 * r.latentKw) / r.peakLoadKgPerDay).toBeCloseTo((2501 - 2.326 * 20) / 86.4, 6)
  })
})

describe('what dry.room refuses', () => {
  it.each([
    [
      { ...base, batches: [{ name: 'n', kg: 10, inDay: 0 }] },
      /lossPctPerDay: and piece are both given or both missing/,
    ],
    [
      { ...base, batches: [{ name: 'n', kg: 10, inDay: 5, outDay: 5, lossPctPerDay: 1 }] },
      /outDay: is 5; allowed: a day after inDay 5/,
    ],
    [{ ...base, room: { tempC: 20, rhPct: 5 } }, /room\.rhPct: is 5; allowed/],
  ])('names the field, what was given and what is allowed (%#)', (input, message) => {
    const attempt = () => calculations['dry.room']!.run(input)
    expect(attempt).toThrow(InvalidInput)
    expect(attempt).toThrow(message)
  })
})
