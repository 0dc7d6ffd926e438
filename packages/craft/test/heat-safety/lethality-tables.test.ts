import { chickenRows } from '../../../rulebook/data/lethality/chicken.ts'
import { meatRows } from '../../../rulebook/data/lethality/meat.ts'
import { turkeyRows } from '../../../rulebook/data/lethality/turkey.ts'
import { describe, expect, it } from 'vitest'
import { lethality, type LethalityProduct } from '../../src/heat/lethality.ts'

// Every row of FSIS-GD-2021-14 Tables 2, 3, 4 and 6, held at constant temperature in readings of one a second at the most.
const inC = (f: number): number => ((f - 32) * 5) / 9

/** Held at the row's temperature for `seconds`, and nothing before or after. */
function held(f: number, seconds: number) {
  const steps = Math.max(1, Math.min(200, Math.round(seconds)))
  const log: { minute: number; coreC: number }[] = []
  for (let i = 0; i <= steps; i++) log.push({ minute: (i * seconds) / steps / 60, coreC: inC(f) })
  return log.filter((r, i) => i === 0 || r.minute > log[i - 1]!.minute)
}

const verdict = (f: number, seconds: number, product: LethalityProduct) =>
  lethality({ log: held(f, seconds), organism: 'salmonella', product, maxGapMinutes: 60 }).findings[0]!

const edges = (rows: readonly { f: number; seconds: number }[], product: LethalityProduct) => {
  const wrong: string[] = []
  for (const { f, seconds } of rows) {
    if (verdict(f, seconds, product).verdict !== 'pass') wrong.push(`${f} °F ${seconds} s does not pass`)
    // A second less meets a row of fewer seconds only where the cooler row asks no more: the tables never do.
    if (seconds > 0 && verdict(f, seconds - 1, product).verdict !== 'fail')
      wrong.push(`${f} °F ${seconds - 1} s passes`)
    const cooler = rows.find((r) => r.f === f - 1)
    if (cooler?.seconds !== seconds && verdict(f - 1, seconds, product).verdict !== 'fail')
      wrong.push(`${f - 1} °F ${seconds} s passes`)
  }
  return wrong
}

describe('FSIS-GD-2021-14, Tables 2 and 6: meat', () => {
  for (const [target, key] of [
    ['5-log', 'log5'],
    ['6.5-log', 'log6_5'],
    ['7-log', 'log7'],
  ] as const)
    it(`every row of ${target} passes when held, and fails one second or one degree short`, () => {
      expect(meatRows).toHaveLength(31)
      expect(
        edges(
          meatRows.map((r) => ({ f: r.f, seconds: r[key] })),
          { species: 'meat', target },
        ),
      ).toEqual([])
    })

  it('158 °F is met by being reached: 0 s are asked', () => {
    expect(verdict(158, 0, { species: 'meat' }).verdict).toBe('pass')
    expect(verdict(157, 13, { species: 'meat' }).verdict).toBe('fail')
  })

  it('a core between two rows is judged on the lower one: 150.5 °F asks the 67 s of 150 °F', () => {
    expect(verdict(150.5, 67, { species: 'meat' })).toMatchObject({ verdict: 'pass', limit: 67 })
    expect(verdict(150.5, 66, { species: 'meat' })).toMatchObject({ verdict: 'fail', limit: 67 })
  })

  it('the printed 65.6 °C of the 150 °F row is above it, 65.5 °C is not', () => {
    const at = (coreC: number) =>
      lethality({
        log: [
          { minute: 0, coreC },
          { minute: 67 / 60, coreC },
        ],
        organism: 'salmonella',
        product: { species: 'meat' },
      }).findings[0]!
    expect(at(65.6).verdict).toBe('pass')
    expect(at(65.5).verdict).toBe('fail')
  })
})

describe('FSIS-GD-2021-14, Tables 3 and 4: poultry, 7-log', () => {
  for (const [species, rows] of [
    ['chicken', chickenRows],
    ['turkey', turkeyRows],
  ] as const)
    for (const fatPct of [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12])
      it(`${species}, ${fatPct} % fat: every row passes when held, and fails one second or one degree short`, () => {
        expect(rows).toHaveLength(30)
        const column = rows.map((r) => {
          // Between columns nothing is softened: a column is the printed figure itself.
          expect(r.seconds).toHaveLength(12)
          return { f: r.f, seconds: r.seconds[fatPct - 1]! }
        })
        expect(edges(column, { species, fatPct })).toEqual([])
      })

  it('fat above 12 % or not known takes the 12 % column', () => {
    expect(verdict(160, 16.9, { species: 'chicken' }).verdict).toBe('pass')
    expect(verdict(160, 16.8, { species: 'chicken' }).verdict).toBe('fail')
    expect(verdict(160, 16.8, { species: 'chicken', fatPct: 30 }).verdict).toBe('fail')
  })

  it('fat between two columns takes the longer time of both', () => {
    expect(verdict(151, 125, { species: 'chicken', fatPct: 1.5 }).verdict).toBe('fail')
    expect(verdict(151, 126, { species: 'chicken', fatPct: 1.5 }).verdict).toBe('pass')
  })

  it('mixed poultry takes the longer time of chicken and turkey', () => {
    expect(verdict(136, 4884, { species: 'other-poultry' }).verdict).toBe('pass')
    expect(verdict(136, 4883, { species: 'other-poultry' }).verdict).toBe('fail')
    expect(verdict(158, 40.9, { species: 'other-poultry' }).verdict).toBe('pass')
    expect(verdict(158, 40, { species: 'other-poultry' }).verdict).toBe('fail')
  })
})
