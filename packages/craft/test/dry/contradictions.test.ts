import { describe, expect, it } from 'vitest'
import { course } from '../../src/dry/course.ts'
import { courseInput } from '../../src/dry/course-schema.ts'
import { markedPieces } from '../../src/dry/marked-pieces.ts'

const piece = {
  diameterMm: 60,
  composition: { waterPct: 56.5, proteinPct: 16.5, fatPct: 23, ashPct: 3.8, saltPct: 2.7 },
  stages: [{ days: 60, tempC: 13, rhPct: 80 }],
}
const after = (target: number, weighings: readonly (readonly [number, number])[]) =>
  course(
    courseInput.parse({
      ...piece,
      target: { weightLossPct: target },
      weighings: weighings.map(([day, weightLossPct]) => ({ day, weightLossPct })),
    }),
  )

describe('weighings and course that do not go together', () => {
  it('give no ready day before a weighing that has not met the target', () => {
    const { readyDay, warnings } = after(33, [[300, 30]])
    expect(readyDay === undefined || readyDay.likely >= 300).toBe(true)
    if (readyDay === undefined) expect(warnings.join(' ')).toMatch(/no date is given/)
  })

  it('that contradict one another give no date at all, and say so', () => {
    const { readyDay, warnings } = after(33, [
      [5, 20],
      [10, 2],
      [15, 25],
      [20, 3],
    ])
    expect(readyDay).toBeUndefined()
    expect(warnings.join(' ')).toMatch(/points off any course/)
  })

  it('that go together keep their date', () => {
    const { series } = course(courseInput.parse({ ...piece, target: { weightLossPct: 33 } }))
    const seen = [7, 14, 21].map((d) => [d, series[d]!.weightLossPct] as const)
    expect(after(33, seen).readyDay?.likely).toBeGreaterThan(21)
  })
})

describe('a marked piece that cannot be right beside the others', () => {
  const at = (grams: readonly number[], day: number) =>
    grams.map((g, i) => ({ piece: `P${i + 1}`, day: day + i / 1440, g }))

  it('is left out of the mean and named: 0.7 typed for 700', () => {
    const { losses } = markedPieces([...at([1000, 1000, 1000], 0), ...at([800, 0.7, 810], 20)])
    expect(losses[0]!.weightLossPct).toBeCloseTo(19.5, 9)
    expect(losses[0]!.strange?.map((s) => s.piece)).toEqual(['P2'])
  })

  it('is not guessed among two, and pieces that spread as pieces do all count', () => {
    const two = markedPieces([...at([1000, 1000], 0), ...at([800, 500], 20)])
    expect(two.losses[0]!.strange).toBeUndefined()
    const three = markedPieces([...at([1000, 1000, 1000], 0), ...at([780, 800, 820], 20)])
    expect(three.losses[0]!.pieces).toHaveLength(3)
  })
})
