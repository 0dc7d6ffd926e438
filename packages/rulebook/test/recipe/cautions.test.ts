import type { Recipe } from '@forcemeat/craft/recipe/schema'
import { describe, expect, it } from 'vitest'
import { recipeCautions } from '../../src/recipe/cautions.ts'

const recipe = (change: Partial<Recipe> = {}): Recipe => ({
  name: 'Link',
  kind: 'cooked',
  smoked: false,
  readyToEat: true,
  route: 'comminuted',
  meat: [{ material: 'pork-shoulder-trim', pct: 100 }],
  additions: [{ material: 'salt', pct: 1.8 }],
  ...change,
})
const cure = { material: 'curing-salt-6.25-nitrite', pct: 0.24 }
const salted = { material: 'salt', pct: 1.8 }
const ids = (change: Partial<Recipe>, materials?: readonly string[]) =>
  recipeCautions(recipe(change), materials).map((c) => c.id)

describe('which cautions a recipe is due (9 CFR 318.10 as carried into guidance; FSIS-GD-2021-14; common practice)', () => {
  it('smoked without nitrite or nitrate, whatever its kind; none where a cure is in it', () => {
    for (const kind of ['fresh', 'cooked', 'fermented', 'dried'] as const) {
      expect(ids({ kind, smoked: true }), kind).toContain('smoked-uncured')
      expect(ids({ kind, smoked: true, additions: [salted, cure] }), kind).not.toContain('smoked-uncured')
      expect(ids({ kind, smoked: false }), kind).not.toContain('smoked-uncured')
    }
    expect(ids({ smoked: true, additions: [salted, { ...cure, pct: 0 }] })).toContain('smoked-uncured')
  })

  it('raw pork eaten as sold asks how it was treated, and says that freezing does not help game', () => {
    for (const kind of ['fresh', 'fermented', 'dried'] as const) expect(ids({ kind }), kind).toContain('raw-pork')
    expect(ids({ kind: 'cooked' })).not.toContain('raw-pork')
    expect(ids({ kind: 'dried', readyToEat: false })).not.toContain('raw-pork')
    expect(ids({ kind: 'dried', meat: [{ material: 'beef-trim-90-10', pct: 100 }] })).not.toContain('raw-pork')
    const of = (meat: Recipe['meat']) =>
      recipeCautions(recipe({ kind: 'dried', meat })).find((c) => c.id === 'raw-pork')!
    const pork = of(recipe().meat)
    expect(pork.text).toMatch(/pork.*Trichinella.*frozen.*Record it on the lot/)
    expect(pork.text).not.toContain('carcass')
    expect(of([{ material: 'wild-boar', pct: 100 }]).text).toMatch(/Freezing does not make wild boar safe.*carcass/)
    // Of a batch what was planned in beside the recipe counts, too.
    const beef = { kind: 'dried', meat: [{ material: 'beef-trim-90-10', pct: 100 }] } as const
    expect(ids({ ...beef, meat: [...beef.meat] }, ['pork-back-fat'])).toContain('raw-pork')
  })

  it('a raw sausage is for its eater to cook, and kept cold', () => {
    for (const kind of ['fresh', 'fermented', 'dried'] as const)
      expect(ids({ kind, readyToEat: false })).toEqual(['raw-sausage'])
    expect(ids({ kind: 'cooked', readyToEat: false })).toEqual([])
    expect(recipeCautions(recipe({ kind: 'fresh', readyToEat: false }))[0]!.text).toMatch(/cold.*cooked/s)
  })
})
