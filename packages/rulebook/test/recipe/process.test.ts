import { describe, expect, it } from 'vitest'
import { judgeRecipe } from '../../src/recipe/judge-recipe.ts'
import { recipeFacts } from '../../src/recipe/facts.ts'
import { whereSold } from '../../src/recipe/where-sold.ts'
import { overall } from '@forcemeat/craft/finding'
import type { Case } from '../../src/rule.ts'

const judge = (
  facts: Case['facts'],
  figures: Record<string, number> = { nitritePpm: 0, nitratePpm: 0 },
  jurisdictions: readonly string[] = ['US'],
) =>
  judgeRecipe({
    facts,
    measures: Object.fromEntries(Object.entries(figures).map(([k, value]) => [k, { value }])),
    on: '2026-01-01',
    jurisdictions,
  })
const of = (found: ReturnType<typeof judge>, rule: string) => found.find((f) => f.rule === rule)
const facts = (kind: string, smoked: boolean, more: Case['facts'] = {}) => ({
  ...recipeFacts({ kind, smoked, readyToEat: kind !== 'fresh', route: 'comminuted' }, ['pork']),
  ...more,
})
const cured = { nitritePpm: 140, nitratePpm: 0 }

describe('process findings of a recipe', () => {
  it('refuses a safe verdict to what is smoked without cure, and gives cold smoke a fail', () => {
    expect(of(judge(facts('cooked', true)), 'process.smoked-uncured')).toMatchObject({
      verdict: 'cannot-tell',
      weight: 'limit',
    })
    expect(of(judge(facts('dried', true, { coldSmoked: true })), 'process.cold-smoked-uncured')?.verdict).toBe('fail')
    expect(overall(judge(facts('cooked', true)))).not.toBe('pass')
  })

  it('is silent on smoke where there is cure', () => {
    const found = judge(facts('cooked', true), cured)
    expect(found.some((f) => f.rule.startsWith('process.'))).toBe(false)
  })

  it('cannot tell whether it is cured where the dose is not given', () => {
    expect(of(judge(facts('cooked', true), {}), 'process.smoked-uncured')?.because).toMatch(/whether it holds nitrite/)
  })

  it('refuses a long warm process and a fermentation without cure', () => {
    expect(of(judge(facts('cooked', false, { longWarm: true })), 'process.long-warm-uncured')?.verdict).toBe('fail')
    expect(of(judge(facts('fermented', false)), 'process.fermented-uncured')?.verdict).toBe('cannot-tell')
  })

  it('asks dry sausage without nitrate for a proof of the process', () => {
    const at = (processProof: boolean | undefined) =>
      of(judge(facts('dried', false, { processProof }), cured), 'process.dried-without-nitrate')?.verdict
    expect([at(false), at(undefined), at(true)]).toEqual(['cannot-tell', 'cannot-tell', undefined])
    expect(
      of(judge(facts('dried', false), { nitritePpm: 100, nitratePpm: 100 }), 'process.dried-without-nitrate'),
    ).toBeUndefined()
  })

  it('refuses nitrate in what will be fried', () => {
    expect(
      of(
        judge(facts('fresh', false, { toBeFried: true }), { nitritePpm: 100, nitratePpm: 50 }),
        'process.fried-nitrate',
      )?.verdict,
    ).toBe('fail')
    expect(of(judge(facts('fresh', false, { toBeFried: true }), cured), 'process.fried-nitrate')).toBeUndefined()
  })

  it('asks how pork eaten raw was treated', () => {
    expect(of(judge(facts('dried', false), cured), 'process.raw-pork')).toMatchObject({
      verdict: 'cannot-tell',
      because: expect.stringMatching(/how the pork was treated/),
    })
    expect(of(judge(facts('dried', false, { porkTreated: false }), cured), 'process.raw-pork')?.verdict).toBe('fail')
    expect(of(judge(facts('dried', false, { porkTreated: true }), cured), 'process.raw-pork')).toBeUndefined()
    expect(of(judge(facts('cooked', true), cured), 'process.raw-pork')).toBeUndefined()
  })

  it('leaves a plain fresh sausage without process findings', () => {
    expect(judge(facts('fresh', false)).filter((f) => f.rule.startsWith('process.'))).toEqual([])
  })
})

describe('where a recipe may be sold', () => {
  const places = ['US', 'EU', 'GB', 'CA', 'Codex', 'AU-NZ']

  it('2.5 g/kg of 6.25 % cure: in the US and Canada as it stands; not in the EU or GB, with the least change', () => {
    const found = whereSold(
      judge(facts('cooked', true), { nitritePpm: 156.25, nitratePpm: 0, finishedPctOfMeatBlock: 100 }, places),
      places,
    )
    expect(Object.fromEntries(found.map((p) => [p.jurisdiction, p.verdict]))).toEqual({
      US: 'pass',
      EU: 'fail',
      GB: 'fail',
      CA: 'pass',
      Codex: 'cannot-tell',
      'AU-NZ': 'cannot-tell',
    })
    expect(found.find((p) => p.jurisdiction === 'GB')?.change.join()).toMatch(/from 156\.3 down to 150 mg\/kg/)
    expect(found.find((p) => p.jurisdiction === 'EU')?.change.join()).toMatch(/from 104\.2 down to 80 mg\/kg/)
  })

  it('a finding that holds everywhere stops it everywhere', () => {
    const found = whereSold(
      judge(facts('dried', true, { coldSmoked: true }), { nitritePpm: 0, nitratePpm: 0 }, places),
      places,
    )
    expect(found.every((p) => p.verdict === 'fail')).toBe(true)
  })

  it('is never allowed where nothing was judged', () => {
    const [nz] = whereSold(judge(facts('fresh', false), { nitritePpm: 0, nitratePpm: 0 }, ['AU-NZ']), ['AU-NZ'])
    expect(nz).toMatchObject({ verdict: 'cannot-tell', says: expect.stringMatching(/not known/) })
  })

  it('counts alternatives by the best of them', () => {
    const bacon = {
      ...facts('cooked', true),
      route: 'pumped',
      bacon: true,
      reducedNitriteScheme: false,
      lacticCulture: true,
      toBeFried: true,
    }
    const [us] = whereSold(
      judge(bacon, { nitritePpm: 60, nitratePpm: 0, acceleratorSaltsPpm: 550, acceleratorAcidsPpm: 0 }),
      ['US'],
    )
    expect(us).toMatchObject({ verdict: 'pass', stops: [] })
  })
})
