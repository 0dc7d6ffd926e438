import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { createRoom, type Words } from '../src/plot/room.ts'
import { swatchOf } from '../src/plot/swatch.ts'

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

describe('words of a level line', () => {
  const page = { left: 0, right: 400 }
  const size = { width: 100, height: 15 }

  it('stand on their own line, never where another line runs through them', () => {
    const room = createRoom(0, 300)
    const [upper, lower] = [100, 110]
    const a = room.placeOnLine(size, upper, { ...page, others: [upper, lower] })
    const b = room.placeOnLine(size, lower, { ...page, others: [upper, lower] })
    expect(a.y + size.height).toBeLessThan(upper)
    expect(b.y).toBeGreaterThan(lower)
    expect([a.away, b.away]).toEqual([false, false])
  })

  it('move along their line before they leave it', () => {
    const room = createRoom(0, 300)
    room.take({ x: 300, y: 60, width: 100, height: 80 })
    const at = room.placeOnLine(size, 100, { ...page, others: [100] })
    expect(at.x).toBeLessThan(300 - size.width + 1)
    expect([at.y, at.away]).toEqual([100 - size.height - 3, false])
  })

  it('are tied to their line where they had to leave it', () => {
    const room = createRoom(0, 300)
    room.take({ x: 0, y: 70, width: 400, height: 60 })
    const at = room.placeOnLine(size, 100, { ...page, others: [100] })
    expect(at.away).toBe(true)
    expect(at.y + size.height <= 70 || at.y >= 130).toBe(true)
  })
})

describe('a line of the key', () => {
  it('is told by its dash and not by its colour alone', () => {
    expect(swatchOf({ stroke: '#123456', width: 2 }, false)).toMatch(/^linear-gradient/)
    expect(swatchOf({ stroke: '#123456', width: 2, dash: [8, 4] }, false)).toContain(
      '#123456 0px 8px, transparent 8px 12px',
    )
    expect(swatchOf({ stroke: '#123456', width: 2 }, true)).toMatch(/^radial-gradient/)
  })
})
