import { describe, expect, it } from 'vitest'
import { chickenRows } from '../../data/lethality/chicken.ts'
import { meatRows } from '../../data/lethality/meat.ts'
import { turkeyRows } from '../../data/lethality/turkey.ts'
import { coolingRules } from '../../src/cooling/rules.ts'
import { lethalityRules } from '../../src/lethality/rules.ts'
import { tableFor } from '../../src/lethality/tables.ts'

describe('lethality tables as data, FSIS-GD-2021-14', () => {
  // An arithmetic apart from how the rows were entered: the column was made by rounding 6.5 D up, D150 = 0.1716 min, z = 10 °F.
  it('the 6.5-log column is 6.5 D rounded up, to minutes up to 145 °F and seconds above, but for 136 °F', () => {
    const odd = meatRows
      .filter((r) => r.log6_5 > 0)
      .filter(({ f, log6_5 }) => {
        const minutes = 6.5 * 0.1716 * 10 ** ((150 - f) / 10)
        return log6_5 !== (f <= 145 ? 60 * Math.ceil(minutes) : Math.ceil(60 * minutes))
      })
    expect(odd.map((r) => r.f)).toEqual([136])
  })

  it('every time falls with temperature and rises with the reduction asked', () => {
    for (const [i, r] of meatRows.entries()) {
      expect(r.log5).toBeLessThanOrEqual(r.log6_5)
      expect(r.log6_5).toBeLessThanOrEqual(r.log7)
      if (i > 0)
        for (const k of ['log5', 'log6_5', 'log7'] as const) expect(r[k]).toBeLessThanOrEqual(meatRows[i - 1]![k])
    }
    for (const rows of [chickenRows, turkeyRows])
      for (let c = 0; c < 12; c++)
        for (let i = 1; i < rows.length; i++) expect(rows[i]!.seconds[c]).toBeLessThanOrEqual(rows[i - 1]!.seconds[c]!)
  })

  it('poultry times rise with fat, but for the oddities printed at 151 °F for chicken, 150 and 151 °F for turkey', () => {
    const falls = (rows: typeof chickenRows): number[] =>
      rows.filter((r) => r.seconds.some((s, i) => i > 0 && s < r.seconds[i - 1]!)).map((r) => r.f)
    expect(falls(chickenRows)).toEqual([151])
    expect(falls(turkeyRows)).toEqual([150, 151])
  })

  it('poultry has no table for another target than 7-log', () => {
    expect(tableFor('chicken', '6.5-log')).toBeUndefined()
    expect(tableFor('turkey', undefined)).toBeDefined()
  })
})

describe('rules for the reader', () => {
  it('have distinct ids, a scope, and a document, section, edition and mark each', () => {
    const rules = [...lethalityRules, ...coolingRules]
    expect(new Set(rules.map((r) => r.id)).size).toBe(rules.length)
    for (const r of rules) {
      expect(r.scope).not.toBe('')
      for (const v of r.values)
        expect(
          Object.values({ d: v.source.document, s: v.source.section, e: v.source.edition, m: v.source.mark }),
        ).not.toContain('')
    }
  })

  it('what is from memory is marked so: cooling option 4 and five patty rows', () => {
    expect(coolingRules.filter((r) => r.values[0]!.source.mark === 'from-memory').map((r) => r.id)).toEqual([
      'us.fsis.cooling.option-4',
    ])
    expect(lethalityRules.find((r) => r.id === 'us.cfr.318-23.patties')!.note!.match(/from memory/g)).toHaveLength(5)
  })
})
