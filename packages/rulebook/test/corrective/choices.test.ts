import type { Finding, Verdict } from '@forcemeat/craft/finding'
import { describe, expect, it } from 'vitest'
import { allRules, findRule } from '../../src/catalogue.ts'
import { correctivesFor } from '../../src/corrective/choices.ts'
import { targetReduction } from '../../src/lethality/target.ts'

const finding = (rule: string, verdict: Verdict, weight: 'limit' | 'advice' = 'limit'): Finding => ({
  rule,
  title: rule,
  jurisdiction: 'US',
  verdict,
  weight,
  unit: '',
  because: '',
  source: { document: '', section: '', edition: '', mark: 'quoted' },
  inForce: {},
})
const ids = (...findings: Finding[]) => correctivesFor(findings).map((c) => c.id)

describe('corrective choices', () => {
  it('are none while nothing fails', () => {
    expect(
      ids(finding('us.fsis.stabilization', 'pass'), finding('us.fsis.lethality.meat.6.5-log', 'cannot-tell')),
    ).toEqual([])
  })
  it('begin with holding the batch where the chill failed', () => {
    expect(ids(finding('us.fsis.stabilization', 'fail'))[0]).toBe('corrective.cooling.hold')
  })
  it('ask nothing for an option missed beside one that is met', () => {
    expect(
      ids(finding('us.fsis.cooling.option-2', 'fail', 'advice'), finding('us.fsis.stabilization', 'pass')),
    ).toEqual([])
  })
  it('ask for a hold where options fail and the standard cannot be told', () => {
    const found = ids(
      finding('us.fsis.cooling.option-1', 'fail', 'advice'),
      finding('us.fsis.stabilization', 'cannot-tell'),
    )
    expect(found[0]).toBe('corrective.cooling.hold')
  })
  it('look at the other rows first where the end point was missed (FSIS-GD-2021-14, p. 66-68)', () => {
    const found = ids(finding('us.fsis.lethality.meat.6.5-log', 'fail'))
    expect(found).toContain('corrective.lethality.other-row')
    expect(found).not.toContain('corrective.come-up.growth')
  })
  it('of a long come-up name the growth that may stand (FSIS-GD-2021-14, p. 69-79)', () => {
    const [growth] = correctivesFor([finding('us.fsis.lethality.come-up', 'fail', 'advice')]).filter(
      (c) => c.id === 'corrective.come-up.growth',
    )
    expect(growth!.text).toContain('under 3-log of S. aureus')
  })
  it('answer rules that exist, and are rules of the book themselves', () => {
    const all = correctivesFor(allRules().map((r) => finding(r.id, 'fail')))
    for (const c of all) {
      expect(findRule(c.id)?.title).toBe(c.title)
      // The table of mixed poultry is made of the two others and has no entry of its own.
      for (const id of c.after.filter((a) => !a.includes('other-poultry')))
        expect(allRules().some((r) => r.id.startsWith(id))).toBe(true)
    }
    expect(all.length).toBeGreaterThan(8)
  })
})

describe('target of a product', () => {
  it.each([
    [{ species: 'meat' }, 6.5],
    [{ species: 'meat', target: '7-log' }, 7],
    [{ species: 'chicken', fatPct: 8 }, 7],
    [{ species: 'other-poultry' }, 7],
  ] as const)('%j is %d-log (FSIS-GD-2021-14, p. 18-19)', (product, log) => {
    expect(targetReduction(product)?.log).toBe(log)
  })
  it('is not known where no table gives it', () => {
    expect(targetReduction({ species: 'turkey', target: '5-log' })).toBeUndefined()
    expect(targetReduction({ species: 'meat', target: 'patties' })).toBeUndefined()
  })
})
