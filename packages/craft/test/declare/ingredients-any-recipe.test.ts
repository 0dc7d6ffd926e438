import { calculations } from '@forcemeat/craft'
import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { IngredientsInput, IngredientsOutput } from '../../src/declare/ingredients-schema.ts'
import { materials } from '../../src/materials/materials.ts'
import { allergens } from '../../src/materials/schema.ts'
import { figures } from '../../src/rules.ts'

const run = (input: IngredientsInput) => calculations['declare.ingredients']!.run(input) as IngredientsOutput
const places = ['US', 'EU', 'GB', 'CA', 'AU-NZ'] as const

describe('any recipe', () => {
  const ids = materials.map((m) => m.id)
  const compound = fc.record({
    kg: fc.double({ min: 0, max: 20, noNaN: true }),
    name: fc.constantFrom('seasoning', 'batter', 'sauce'),
    parts: fc.array(
      fc.record({
        name: fc.constantFrom('salt', 'dextrose', 'flavouring', 'yeast extract'),
        allergens: fc.uniqueArray(fc.constantFrom(...allergens), { maxLength: 4 }),
      }),
      { minLength: 1, maxLength: 4 },
    ),
  })
  const plain = fc.record({ material: fc.constantFrom(...ids), kg: fc.double({ min: 0, max: 60, noNaN: true }) })
  const recipe = fc
    .array(fc.oneof({ weight: 5, arbitrary: plain }, { weight: 1, arbitrary: compound }), {
      minLength: 1,
      maxLength: 15,
    })
    .filter((items) => items.some((i) => i.kg > 1e-6))

  it('gives a list in true descending order, of the whole weight, in every place', () => {
    fc.assert(
      fc.property(recipe, fc.constantFrom(...places), fc.boolean(), (items, jurisdiction, groupSpices) => {
        const o = run({ jurisdiction, items, groupSpices })
        for (let i = 1; i < o.items.length; i += 1) expect(o.items[i]!.kg).toBeLessThanOrEqual(o.items[i - 1]!.kg)
        const mix = items.reduce((s, i) => s + i.kg, 0)
        expect(o.items.reduce((s, i) => s + i.kg, 0)).toBeCloseTo(mix, 6)
        // Everything over 2 % stands before the clause for the rest.
        const at = o.text.indexOf('Contains 2 % or less of:')
        const major = o.items.filter((i) => i.pct > 2 + 1e-6).map((i) => i.text)
        if (at >= 0) expect(o.text.slice(0, at).startsWith(major.join(', '))).toBe(true)
      }),
      { numRuns: 3000 },
    )
  })

  it('sets off every allergen of every ingredient and of everything in it, in every place', () => {
    const { allergenWords } = figures('labelling')
    fc.assert(
      fc.property(recipe, fc.constantFrom(...places), fc.boolean(), (items, jurisdiction, groupSpices) => {
        const o = run({ jurisdiction, items, groupSpices })
        const off = o.emphasised.map((s) => o.text.slice(s.start, s.end).toLowerCase()).join('|')
        for (const item of items.filter((i) => i.kg > 0)) {
          const carried =
            'material' in item
              ? materials.find((m) => m.id === item.material)!.allergens
              : item.parts.flatMap((p) => p.allergens)
          for (const a of carried) {
            if (a === 'gluten-cereal' && carried.includes('wheat')) continue
            const { say, words } = allergenWords[a]
            expect(
              [say, ...words].some((w) => off.includes(w)),
              `${a} in "${o.text}"`,
            ).toBe(true)
          }
        }
        expect(o.textCapitals.toLowerCase()).toBe(o.text.toLowerCase())
      }),
      { numRuns: 3000 },
    )
  })
})
