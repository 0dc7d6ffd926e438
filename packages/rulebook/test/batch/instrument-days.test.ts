import { describe, expect, it } from 'vitest'
import type { BatchInstrument } from '../../src/batch/facts.ts'
import { calibratedOn, trustOn } from '../../src/batch/instrument-days.ts'
import type { InstrumentCheck } from '../../src/batch/slow-facts.ts'

const day = '2026-03-02'
const of = (type: string, over: Partial<BatchInstrument> = {}): BatchInstrument => ({
  instrument: 'I',
  name: 'the instrument',
  type,
  checkEveryDays: 30,
  standing: 'in-date',
  toleranceC: 0.3,
  ...over,
})
const check = (
  method: string,
  unit: string,
  reference: number,
  over: Partial<InstrumentCheck> = {},
): InstrumentCheck => ({ instrument: 'I', on: day, method, unit, reference, good: true, tolerance: 0.3, ...over })
const thermometer = (checks: InstrumentCheck[], i = of('logger')) =>
  trustOn({ instruments: [i], checks }, 'I', day, 'thermometer of the chamber')
const buffers = (...references: number[]) => references.map((r) => check('buffer', 'pH', r, { tolerance: 0.02 }))
const meter = (checks: InstrumentCheck[], i = of('ph-meter')) =>
  calibratedOn({ instruments: [i], checks }, 'I', day, 'buffer')
const water = (checks: InstrumentCheck[], i = of('aw-meter')) =>
  calibratedOn({ instruments: [i], checks }, 'I', day, 'salt-standard')

describe('an instrument is believed for what it was checked for (common practice, no source)', () => {
  it('a thermometer by a point in °C, not by its clock, its humidity or a load', () => {
    expect(thermometer([check('ice-point', '°C', 0)]).ok).toBe(true)
    for (const c of [
      check('comparison', 's', 0),
      check('salt-standard', '% RH', 75.3),
      check('comparison', '% RH', 75),
      check('test-load', 'g', 1000),
      check('buffer', '°C', 0),
      check('ice-point', 'g', 0),
    ])
      expect(thermometer([c]).ok, `${c.method} ${c.unit}`).toBe(false)
    expect(thermometer([check('test-load', 'g', 1000)], of('scale')).ok).toBe(false)
    expect(thermometer([check('ice-point', '°C', 0)], of('scale')).ok).toBe(false)
  })
  it('a good check of the clock does not undo an ice point that was wrong', () => {
    const wrong = check('ice-point', '°C', 0, { on: '2026-03-01', good: false })
    expect(thermometer([wrong, check('comparison', 's', 0)]).ok).toBe(false)
    expect(thermometer([wrong, check('ice-point', '°C', 0)]).ok).toBe(true)
    expect(thermometer([{ ...wrong, on: day }, check('boiling-point', '°C', 100)]).ok).toBe(false)
  })
  it('a thermometer is as far off as its check let it be, and never exact', () => {
    const wide = thermometer([check('ice-point', '°C', 0, { tolerance: 2 })])
    expect(wide.ok && wide.instrument.toleranceC).toBe(2)
    const exact = thermometer([check('ice-point', '°C', 0, { tolerance: 0 })], of('logger', { toleranceC: 0 }))
    expect(exact.ok && exact.instrument.toleranceC).toBeUndefined()
  })
  it('a pH meter by two buffers of that day, one at 4.7 or lower, in pH', () => {
    expect(meter(buffers(4.01, 7)).ok).toBe(true)
    for (const few of [[7], [4.01], [4.01, 4.01], [4.01, 4.5], [7, 10], []])
      expect(meter(buffers(...few)).ok).toBe(false)
    expect(meter([check('buffer', 'g', 1000), check('buffer', 'g', 4)]).ok).toBe(false)
    expect(meter(buffers(4.01, 7), of('thermometer')).ok).toBe(false)
    expect(meter([...buffers(7), check('buffer', 'pH', 4.01, { good: false })]).ok).toBe(false)
  })
  it('a water activity meter by a salt standard in aw', () => {
    expect(water([check('salt-standard', 'aw', 0.753, { tolerance: 0.005 })])).toMatchObject({ tolerance: 0.005 })
    for (const unit of ['s', 'pH', '% RH']) expect(water([check('salt-standard', unit, 0.753)]).ok).toBe(false)
    expect(water([check('salt-standard', 'aw', 0.753)], of('hygrometer')).ok).toBe(false)
  })
  it('a check that allowed nothing leaves the usual error of such a meter: 0.05 pH, 0.005 aw', () => {
    expect(meter(buffers(4.01, 7).map((c) => ({ ...c, tolerance: 0 })))).toMatchObject({ tolerance: 0.05 })
    expect(water([check('salt-standard', 'aw', 0.753, { tolerance: 0 })])).toMatchObject({ tolerance: 0.005 })
  })
})
