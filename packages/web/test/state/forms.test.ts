import { expect, it } from 'vitest'
import { leavesOf, withLeaf } from '../../src/pages/record/leaves.ts'
import { fieldOf } from '../../src/state/form.ts'
import { readerOf, readPlain } from '../../src/state/reader.ts'
import { units } from '../../src/state/who.ts'
import { fieldName } from '../../src/ui/words.ts'
import { mass, pricePerMass } from '../../src/ui/figures.ts'

it('finds the field a fault of the server is about', () => {
  expect(fieldOf('body.kg')).toBe('kg')
  expect(fieldOf('[1].body.name')).toBe('name')
  expect(fieldOf('body.documents[0].reference')).toBe('documents[0].reference')
  expect(fieldOf('by')).toBe('by')
})

it('takes a fact apart into its values and puts one back in its place', () => {
  const body = { lot: 'A', kg: 4, documents: [{ kind: 'note', reference: '7' }] }
  expect(leavesOf(body)).toEqual([
    ['lot', 'A'],
    ['kg', 4],
    ['documents[0].kind', 'note'],
    ['documents[0].reference', '7'],
  ])
  expect(withLeaf(body, 'documents[0].reference', '8')).toEqual({
    ...body,
    documents: [{ kind: 'note', reference: '8' }],
  })
  expect(withLeaf(body, 'kg', undefined)).toEqual({ lot: 'A', documents: body.documents })
  expect(body.kg).toBe(4)
})

it('reads weights with any unit, in kg, and keeps what it cannot read as a named fault', () => {
  const r = readerOf({ a: '55 lb', b: '25.3 g', c: '', d: '12 buckets', e: '-2' })
  expect(r.quantity('a', 'mass')).toBeCloseTo(24.94758035, 8)
  expect(r.quantity('b', 'mass')).toBeCloseTo(0.0253, 12)
  expect(r.quantity('c', 'mass')).toBeUndefined()
  expect(r.faults).toEqual([])
  r.quantity('d', 'mass')
  r.quantity('e', 'mass')
  r.text('c', { required: true })
  expect(r.faults.map((f) => f.path)).toEqual(['d', 'e', 'c'])
})

it('says a word in the place of a number once, and no more of a long one than can be read', () => {
  expect(readPlain('some')).toMatchObject({ message: expect.stringMatching(/^"some" is not a number; allowed: /) })
  expect(readPlain('-some')).toMatchObject({ message: expect.stringMatching(/^"-some" is not a number; allowed: /) })
  const long = readPlain('x'.repeat(5000))
  expect(!long.ok && long.message.length).toBeLessThan(120)
  const r = readerOf({ a: 'some', b: 'some' })
  r.number('a')
  r.quantity('b', 'mass')
  for (const { message } of r.faults) expect(message.match(/some/g)).toHaveLength(1)
})

it('takes a price as typed on a screen in pounds as one per kg, and shows it again per pound', () => {
  units.value = 'us'
  const perKg = readerOf({}).perKg(2)
  expect(perKg).toBeCloseTo(2 / 0.45359237, 9)
  expect(pricePerMass(perKg)).toBe('2.00 / lb')
  expect(mass(1)).toBe('2 lb 3.3 oz')
  units.value = ''
})

it('says the name of a field without its unit', () => {
  expect(fieldName('lines[0].targetKg')).toBe('lines 1, target')
  expect(fieldName('arrivalC')).toBe('temperature on arrival')
})
