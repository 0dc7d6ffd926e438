import { expect, it } from 'vitest'
import { waitsFor } from '../src/read/waits-for.ts'

type Batch = Parameters<typeof waitsFor>[0]
const dried = (over: object = {}): Batch =>
  ({
    state: 'made',
    lines: [],
    weighings: [],
    measures: [],
    curves: [],
    packs: [],
    recipeKind: 'dried',
    recipeBody: { kind: 'dried', meat: [], additions: [], dry: { lossPct: 35 } },
    ...over,
  }) as unknown as Batch
const ph = (value: number) => ({ step: 'dry', what: 'ph', value, taken: '2026-03-20T12:00:00Z' })

it('a product dried raw waits for the log of the air it dries in', () => {
  expect(waitsFor(dried())).toContain('drying curve')
  expect(waitsFor(dried({ curves: [{ purpose: 'dry' }] }))).not.toContain('drying curve')
})

it('one that is cooked first does not, and one that was measured sour while it dried waits for no other log', () => {
  const cooked = { kind: 'dried', meat: [], additions: [], dry: { lossPct: 35 }, cook: { targetCoreC: 71 } }
  expect(waitsFor(dried({ recipeBody: cooked }))).not.toContain('drying curve')
  expect(waitsFor(dried({ measures: [ph(5)] }))).toContain('fermentation curve')
  const logged = waitsFor(dried({ measures: [ph(5)], curves: [{ purpose: 'dry' }] }))
  expect(logged).not.toContain('fermentation curve')
  expect(logged).not.toContain('drying curve')
})
