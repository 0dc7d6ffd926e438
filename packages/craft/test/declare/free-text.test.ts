// Voluntary statements must not mislead, wherever on the label they stand. Regulation (EU) 1169/2011, Articles 7(1) and 36(2).
import { describe, expect, it } from 'vitest'
import { label } from '../../src/declare/label/label.ts'

const asked = (line: string) =>
  label({
    place: 'EU',
    recipe: 'LINK',
    product: { name: 'Lane link', kind: 'fresh', smoked: false, readyToEat: false },
    items: [{ kg: 10, material: 'pork-shoulder-trim' }],
    packedOn: '2026-02-02',
    pack: { handling: [line] },
  }).blocks.some((b) => b.id.startsWith('free-text') && b.by === 'person')

describe('an own line on the label', () => {
  it.each(['Gluten-free, vegetarian.', '100 % beef.', 'Best before 31 December 2099', 'Halal', 'Sans gluten'])(
    '%s is asked about',
    (line) => expect(asked(line)).toBe(true),
  )
  it.each(['Cook through before eating.', 'Once opened, eat within 3 days.', 'Grill 12 minutes to 75 °C.'])(
    '%s is not',
    (line) => expect(asked(line)).toBe(false),
  )
})
