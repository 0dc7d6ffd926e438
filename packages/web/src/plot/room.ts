export type Words = { readonly x: number; readonly y: number; readonly width: number; readonly height: number }

const meet = (a: Words, b: Words): boolean =>
  a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height

/**
 * Keeps words on a plot from lying on one another. `place` gives the top of the first free line at or below the place asked for, or above
 * it where there is none left below; words that fit nowhere stay where they were asked.
 *
 * @param top highest, @param floor lowest a word may reach, in the plot's own pixels
 */
export function createRoom(top: number, floor: number) {
  const taken: Words[] = []
  const free = (w: Words): boolean => w.y >= top && w.y + w.height <= floor && !taken.some((t) => meet(t, w))
  return {
    place: (asked: Words): number => {
      const lines = Math.ceil((floor - top) / asked.height)
      const tries = Array.from({ length: lines }, (_, i) => i).flatMap((i) => [
        asked.y + i * asked.height,
        asked.y - i * asked.height,
      ])
      const y = tries.find((at) => free({ ...asked, y: at })) ?? asked.y
      taken.push({ ...asked, y })
      return y
    },
  }
}
