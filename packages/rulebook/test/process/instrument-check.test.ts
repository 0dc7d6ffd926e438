import { boilingPoint } from '@forcemeat/craft/instrument/boiling-point'
import { describe, expect, it } from 'vitest'
import { standingOfCheck, type CheckedInstrument, type CheckReading } from '../../src/process/instrument-check.ts'

const probe: CheckedInstrument = { type: 'thermometer', toleranceC: 0.5 }
const floor: CheckedInstrument = { type: 'scale', toleranceG: 20, capacityG: 60_000 }
const ice = (change: Partial<CheckReading> = {}): CheckReading => ({
  method: 'ice-point',
  reference: 0,
  reading: 0.2,
  unit: '°C',
  tolerance: 0.5,
  ...change,
})
const load = (change: Partial<CheckReading> = {}): CheckReading =>
  ice({ method: 'test-load', reference: 20_000, reading: 20_010, unit: 'g', tolerance: 20, ...change })

describe('a check of an instrument', () => {
  it('is held by the smaller of the tolerance typed and its own', () => {
    expect(standingOfCheck(probe, ice(), 0)).toEqual({ error: 0.2, allowed: 0.5, withinTolerance: true })
    expect(standingOfCheck(probe, ice({ reading: 6, tolerance: 20 }), 0)).toEqual({
      error: 6,
      allowed: 0.5,
      withinTolerance: false,
    })
    expect(standingOfCheck(probe, ice({ reading: 0.3, tolerance: 0.2 }), 0).withinTolerance).toBe(false)
    // 0.3 − 0.1 in floating point is more than 0.2.
    const two = ice({ method: 'comparison', reference: 0.1, reading: 0.3, tolerance: 0.2 })
    expect(standingOfCheck(probe, two, 0).withinTolerance).toBe(true)
  })

  it('proves nothing by an ice point that is not 0 °C, or a boiling point that is not that of the place (ICAO atmosphere, IAPWS-IF97)', () => {
    expect(standingOfCheck(probe, ice({ reference: 5, reading: 5 }), 0).provesNothing).toMatch(/ice point is 0 °C/)
    const { boilingC } = boilingPoint({ altitudeM: 210 })
    const boil = (c: number, altitudeM?: number) =>
      standingOfCheck(probe, ice({ method: 'boiling-point', reference: c, reading: c }), altitudeM)
    expect(boil(boilingC, 210).withinTolerance).toBe(true)
    expect(boil(boilingC - 0.9, 210).withinTolerance).toBe(true)
    expect(boil(90, 210)).toMatchObject({
      withinTolerance: false,
      provesNothing: expect.stringMatching(/boils at 99\.3 °C at 210 m/) as string,
    })
    expect(boil(100).provesNothing).toMatch(/altitude of the kitchen is not recorded/)
  })

  it('proves nothing by a load far below what the scale is used for: less than 2 % of its capacity (common practice, no source)', () => {
    expect(standingOfCheck(floor, load(), undefined).withinTolerance).toBe(true)
    expect(standingOfCheck(floor, load({ reference: 1200, reading: 1200 }), undefined).withinTolerance).toBe(true)
    for (const g of [1199, 1, 0])
      expect(standingOfCheck(floor, load({ reference: g, reading: g }), undefined).provesNothing).toBeDefined()
  })

  it('proves nothing where the tolerance typed would pass anything and the instrument has none of its own', () => {
    const buffer = ice({ method: 'buffer', reference: 7, reading: 9, unit: 'pH', tolerance: 5 })
    expect(standingOfCheck({ type: 'ph-meter' }, buffer, 0).provesNothing).toMatch(/more than ± 0\.3 pH/)
    expect(standingOfCheck({ type: 'thermometer' }, ice({ reading: 6, tolerance: 20 }), 0)).toMatchObject({
      withinTolerance: false,
    })
  })

  it('cannot be one whose method or unit is not that of the instrument', () => {
    expect(standingOfCheck(floor, ice(), 0)).toMatchObject({ impossible: 'method', withinTolerance: false })
    expect(standingOfCheck(probe, ice({ unit: 'g' }), 0)).toMatchObject({ impossible: 'unit', withinTolerance: false })
    expect(standingOfCheck({ type: 'clock' }, ice({ method: 'comparison', unit: 's' }), 0).withinTolerance).toBe(true)
  })

  it('that is off stays off, whatever else is wrong with it: a bad reading is never taken for none', () => {
    const off = standingOfCheck(floor, load({ reference: 1, reading: 50 }), undefined)
    expect(off).toEqual({ error: 49, allowed: 20, withinTolerance: false })
  })
})
