import { describe, expect, it } from 'vitest'
import { judged, proposal, type Asked } from '../../src/pages/instruments/propose.ts'
import type { InstrumentView } from '../../src/state/views.ts'

const scale: InstrumentView = {
  instrument: 'SC',
  type: 'scale',
  name: 'bench scale',
  accuracyClass: 'III',
  divisionG: 5,
  checkEveryDays: 30,
  seq: 1,
  standing: 'in-date',
}
const probe: InstrumentView = { ...scale, type: 'thermometer', toleranceC: 0.5, resolutionC: 0.1 }
const asked = (more: Partial<Asked>): Asked => ({
  instrument: scale,
  method: 'test-load',
  altitudeM: undefined,
  pressure: '',
  reference: '',
  reading: '',
  tolerance: '',
  ...more,
})

describe('what a check proposes', () => {
  it.each([
    // OIML R 76-1:2006, Table 6, class III: 0.5 e up to 500 e, 1 e up to 2000 e, 1.5 e up to 10 000 e; in service twice that.
    ['2500', '5'],
    ['2505', '10'],
    ['10000', '10'],
    ['10005', '15'],
  ])(
    'of a class III scale with e = 5 g at %s g is ± %s g in service (OIML R 76-1:2006, Table 6 and 3.5.2)',
    (reference, tolerance) => {
      expect(proposal(asked({ reference }))).toMatchObject({ tolerance })
      expect(proposal(asked({ reference })).working.length).toBeGreaterThan(2)
    },
  )

  it("is the kitchen's own where that is smaller, and nothing published where the plate is not known", () => {
    expect(proposal(asked({ reference: '10000', instrument: { ...scale, toleranceG: 4 } })).tolerance).toBe('4')
    const { accuracyClass: _, ...plain } = scale
    const said = proposal(asked({ reference: '1000', instrument: { ...plain, toleranceG: 4 } }))
    expect(said.tolerance).toBeUndefined()
    expect(said.because[0]).toContain('kitchen’s own')
  })

  it('refuses a load beyond the most intervals of the class, and says so', () => {
    const said = proposal(asked({ reference: '60000' }))
    expect([said.tolerance, said.because[0]]).toEqual([undefined, expect.stringContaining('10000 intervals')])
  })

  it('of a boiling point is that of the altitude, or of the barometer where one is read (IAPWS-IF97: 99.97 °C at 1013.25 hPa)', () => {
    const boil = { method: 'boiling-point', instrument: probe }
    expect(proposal(asked({ ...boil, pressure: '1013.25' })).reference).toBe('99.97')
    expect(Number(proposal(asked({ ...boil, altitudeM: 1600 })).reference)).toBeCloseTo(94.7, 1)
    // A barometer goes before the altitude.
    expect(proposal(asked({ ...boil, altitudeM: 1600, pressure: '1013.25' })).reference).toBe('99.97')
    expect(proposal(asked(boil)).reference).toBeUndefined()
    expect(proposal(asked({ ...boil, pressure: 'high' })).reference).toBeUndefined()
  })
})

describe('what a reading says', () => {
  const ice = { method: 'ice-point', instrument: probe, tolerance: '0.5' }
  it('at the ice point is within, too close to tell, or outside, by half a step and 0.06 °C of the slush (Wisconsin fact sheet 7)', () => {
    expect(judged(asked({ ...ice, reading: '0.1' }))?.verdict).toBe('pass')
    expect(judged(asked({ ...ice, reading: '0.4' }))?.verdict).toBe('cannot-tell')
    expect(judged(asked({ ...ice, reading: '-0.7' }))?.verdict).toBe('fail')
  })

  it('is nothing before it is typed, and nothing for a scale', () => {
    expect(judged(asked(ice))).toBeUndefined()
    expect(judged(asked({ reading: '1000', tolerance: '5' }))).toBeUndefined()
  })
})
