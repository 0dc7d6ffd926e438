// Names a supplier's statement gives are held against the material they stand for. Regulation (EU) 1169/2011, Articles 7(1) and 17.
import { describe, expect, it } from 'vitest'
import { label } from '../../src/declare/label/label.ts'

const blocks = (material: string, name?: string, more: object = {}) =>
  label({
    place: 'EU',
    recipe: 'LINK',
    product: { name: 'Lane link', kind: 'fresh', smoked: false, readyToEat: false },
    items: [
      { kg: 9, material: 'pork-shoulder-trim' },
      { kg: 0.2, material: 'salt' },
      ...(material === 'pork-shoulder-trim' ? [] : [{ kg: 0.5, material }]),
    ],
    packedOn: '2026-02-02',
    pack: {
      statements: [{ material, ...(name === undefined ? {} : { name }), allergens: [], document: 'spec 1', ...more }],
    },
  }).blocks.filter((b) => b.id.startsWith('supplier-name'))

describe("a name in a supplier's statement", () => {
  it.each(['chicken', 'beef', 'pork and beef', 'shoulder trim'])('%s of pork stops the label', (name) => {
    expect(blocks('pork-shoulder-trim', name).some((b) => b.by === 'data')).toBe(true)
  })
  it.each([
    ['pork-shoulder-trim', 'pork, organic, halal'],
    ['apple', 'pear'],
    ['black-pepper', 'black pepper, contains no mustard'],
  ])('%s called %s asks a person', (material, name) => {
    expect(blocks(material, name).some((b) => b.by === 'person' || b.by === 'data')).toBe(true)
  })
  it.each([
    ['pork-shoulder-trim', 'pork'],
    ['pork-shoulder-trim', 'pork shoulder'],
    ['black-pepper', 'cracked black pepper'],
    ['bacon', 'smoked bacon'],
    ['salt', 'sea salt'],
    ['pork-back-fat', 'pork fat'],
  ])('%s called %s is as it is', (material, name) => {
    expect(blocks(material, name)).toEqual([])
  })
  it('holds the parts of a material as well', () => {
    const parts = { parts: [{ name: 'chicken' }, { name: 'salt' }] }
    expect(blocks('pork-shoulder-trim', undefined, parts).some((b) => b.by === 'data')).toBe(true)
    expect(blocks('black-pepper', undefined, { parts: [{ name: 'pepper, gluten free' }] })).toHaveLength(1)
  })
})
