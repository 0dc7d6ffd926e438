import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { createRoom, type Words } from '../src/plot/room.ts'

const overlap = (a: Words, b: Words): boolean =>
  a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height

describe('words on a plot', () => {
  it('stay where they are asked while nothing is in the way', () => {
    expect(createRoom(0, 300).place({ x: 10, y: 40, width: 80, height: 15 })).toBe(40)
  })

  it('go a line lower, or higher at the foot of the plot', () => {
    const room = createRoom(0, 60)
    room.place({ x: 10, y: 15, width: 80, height: 15 })
    expect(room.place({ x: 50, y: 15, width: 80, height: 15 })).toBe(30)
    room.place({ x: 10, y: 45, width: 80, height: 15 })
    expect(room.place({ x: 50, y: 45, width: 80, height: 15 })).not.toBe(45)
  })

  it('never lie on one another while there is a free line for each', () => {
    const asked = fc.record({
      x: fc.nat(200),
      y: fc.nat(200),
      width: fc.integer({ min: 10, max: 150 }),
      height: fc.constant(15),
    })
    fc.assert(
      fc.property(fc.array(asked, { maxLength: 6 }), (all) => {
        const room = createRoom(0, 400)
        const placed = all.map((w) => ({ ...w, y: room.place(w) }))
        placed.forEach((a, i) => placed.slice(i + 1).forEach((b) => expect(overlap(a, b)).toBe(false)))
      }),
    )
  })
})
