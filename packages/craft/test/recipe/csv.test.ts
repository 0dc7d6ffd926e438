import { describe, expect, it } from 'vitest'
import { recipeCsv, recipeFromCsv } from '../../src/recipe/csv.ts'
import type { Recipe } from '../../src/recipe/schema.ts'

const recipe: Recipe = {
  name: 'Test',
  kind: 'fresh',
  smoked: false,
  readyToEat: false,
  meat: [
    { material: 'lean', pct: 70.5, note: 'cold, "dry"\nand trimmed' },
    { material: 'fat', pct: 29.5 },
  ],
  additions: [
    { material: 'salt', pct: 1.8, note: '=1+1' },
    { material: 'trace', pct: 0.0000001 },
  ],
}

describe('recipe parts as comma-separated text', () => {
  it('come back as they went out, commas, quotes, line breaks and formulas in notes too', () => {
    const { csv } = recipeCsv({ recipe })
    expect(csv).toContain("'=1+1")
    expect(recipeFromCsv({ csv })).toEqual({ meat: recipe.meat, additions: recipe.additions })
  })
  it('are read with a byte-order mark and bare line ends', () => {
    expect(recipeFromCsv({ csv: '\uFEFFpart,material,pct of meat,note\nmeat,lean,100,\n' })).toEqual({
      meat: [{ material: 'lean', pct: 100 }],
      additions: [],
    })
  })
  it('name every row that cannot be read, and never guess a decimal comma', () => {
    const read = (rows: string) => () => recipeFromCsv({ csv: `part,material,pct of meat,note\n${rows}` })
    expect(read('meat,lean,"1,8",\nspice,x,1,\nmeat,,5,')).toThrow(
      /csv row 2: has "1,8" percent[\s\S]*csv row 3: has part "spice"[\s\S]*csv row 4: names no material/,
    )
    expect(() => recipeFromCsv({ csv: 'a,b,c' })).toThrow(/allowed: a first row part,material/)
  })
})
