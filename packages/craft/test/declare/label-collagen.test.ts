// Collagen nobody gives lies between none and all of the protein; the declaration stands where both ends agree on it. Regulation (EU)
// 1169/2011, Annex VII B 17.
import { describe, expect, it } from 'vitest'
import { label } from '../../src/declare/label/label.ts'

const made = (place: 'EU' | 'GB', shoulder: number, fat: number) =>
  label({
    place,
    recipe: 'LINK',
    product: { name: 'Lane link', kind: 'fresh', smoked: false, readyToEat: false },
    items: [
      { kg: shoulder, material: 'pork-shoulder-trim' },
      { kg: fat, material: 'pork-back-fat' },
      { kg: 5, material: 'water' },
    ],
    packedOn: '2026-02-02',
    pack: {},
  })

describe('meat content without the collagen of the back fat', () => {
  it.each(['EU', 'GB'] as const)('is declared in %s where it cannot matter', (place) => {
    const { blocks, ingredients } = made(place, 80, 20)
    expect(blocks.map((b) => b.id)).not.toContain('meat-content')
    // Fat 32.13 % against 29.09 allowed beside it: 96.96 of 105 kg, either way.
    expect(ingredients.text).toContain('pork (92 %)')
  })
  it('is not where it does matter, and collagen alone is asked for', () => {
    const hit = made('EU', 5, 95).blocks.find((b) => b.id === 'meat-content')
    expect(hit?.what).toMatch(/no figure for collagen$/)
  })
})
