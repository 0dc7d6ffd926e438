import { describe, expect, it } from 'vitest'
import type { BatchFacts } from '../../src/batch/facts.ts'
import { cookLossPct } from '../../src/batch/dry-loss.ts'
import type { BatchMeasure } from '../../src/batch/slow-facts.ts'
import { slow } from './slow-batch.ts'

const at = (piece: string | undefined, step: string, hour: number, value: number, instrument = 'S2'): BatchMeasure => ({
  step,
  what: 'weight',
  unit: 'g',
  value,
  taken: `2026-03-02T${String(hour).padStart(2, '0')}:00:00Z`,
  instrument,
  ...(piece === undefined ? {} : { piece }),
})
const cooked = (measures: readonly BatchMeasure[]): BatchFacts => {
  const facts = slow({ measures })
  const { ferment: _ferment, dry: _dry, ...body } = facts.recipeBody
  return { ...facts, recipeBody: { ...body, kind: 'cooked', cook: { targetCoreC: 70, lossPct: 12 } }, curves: [] }
}
const pair = (piece: string, from: number, to: number) => [at(piece, 'stuff', 8, from), at(piece, 'chill', 16, to)]

describe('the loss of marked pieces over a cook', () => {
  it('is their mean, from the weight before the cook to the last after it', () => {
    expect(cookLossPct(cooked([...pair('A', 400, 340), ...pair('B', 400, 348)]))).toBeCloseTo(14, 9)
  })

  it.each([
    ['no piece is marked', [at(undefined, 'stuff', 8, 400), at(undefined, 'chill', 16, 340)]],
    ['a piece was weighed once', [...pair('A', 400, 340), at('B', 'stuff', 8, 400)]],
    ['a piece was never weighed after the cook', [at('A', 'stuff', 8, 400), at('A', 'smoke', 10, 390)]],
    ['a piece was first weighed after the cook', [at('A', 'cook', 12, 360), at('A', 'chill', 16, 350)]],
    ['a scale is not known', [at('A', 'stuff', 8, 400, 'X'), at('A', 'chill', 16, 340)]],
    ['nothing was weighed', []],
  ])('is not told where %s', (_, measures) => {
    expect(cookLossPct(cooked(measures))).toBeUndefined()
  })
})
