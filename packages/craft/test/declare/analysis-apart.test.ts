// An analysis and what went in cannot both be of one product where they lie far apart. Regulation (EU) 1169/2011, Article 31(4); how far is
// common practice, no source.
import { describe, expect, it } from 'vitest'
import { label } from '../../src/declare/label/label.ts'
import type { LabelInput } from '../../src/declare/label/schema.ts'

const apart = (place: LabelInput['place'], per100g: LabelInput['pack']['per100g']) =>
  label({
    place,
    recipe: 'LINK',
    product: { name: 'Lane link', kind: 'fresh', smoked: false, readyToEat: false },
    items: [
      { kg: 10, material: 'pork-shoulder-trim' },
      { kg: 0.19, material: 'salt' },
    ],
    packedOn: '2026-02-02',
    pack: { per100g, per100gSource: 'laboratory, report 7', servingG: 100 },
  }).blocks.some((b) => /salt|sodium/i.test(b.what) && /computed|analys/i.test(b.what))

describe('an analysis of salt', () => {
  it.each([0.01, 0.5, 3.5])('of %f g against about 2 g that went in is asked about', (saltG) => {
    expect(apart('EU', { saltG })).toBe(true)
  })
  it.each([1.9, 2.1])('of %f g is not', (saltG) => {
    expect(apart('EU', { saltG })).toBe(false)
  })
})
