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
  const take = (w: Words): void => void taken.push(w)
  const free = (w: Words): boolean => w.y >= top && w.y + w.height <= floor && !taken.some((t) => meet(t, w))
  return {
    /** Room that nothing else is written on. */
    take,
    /**
     * Words of a level line, on the line itself: above it or below it, at its right end or further left; where another line of `others`
     * runs through them they would be read as that one's. Where no place is free they stand where there is room, and `away` says so: a
     * leader then ties them to their line.
     */
    placeOnLine: (
      { width, height }: Pick<Words, 'width' | 'height'>,
      line: number,
      { left, right, others }: { readonly left: number; readonly right: number; readonly others: readonly number[] },
    ): { x: number; y: number; away: boolean } => {
      const crossed = (head: number): boolean => others.some((o) => o !== line && o > head - 2 && o < head + height + 2)
      const last = Math.max(left, right - width)
      const xs = Array.from({ length: 4 }, (_, i) => last - (i * (last - left)) / 3)
      for (const x of xs)
        for (const y of [line - height - 3, line + 2])
          if (!crossed(y) && free({ x, y, width, height })) {
            take({ x, y, width, height })
            return { x, y, away: false }
          }
      for (let step = 1; step * height < floor - top; step++)
        for (const y of [line - (step + 1) * height - 3, line + step * height + 2])
          if (!crossed(y) && free({ x: last, y, width, height })) {
            take({ x: last, y, width, height })
            return { x: last, y, away: true }
          }
      return { x: last, y: line - height - 3, away: false }
    },
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
