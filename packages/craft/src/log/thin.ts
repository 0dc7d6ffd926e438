export type Point = { readonly minute: number; readonly tempC: number }

/**
 * Thins a series as it passes to about `points` points, keeping the lowest and highest of each stretch, so that a plot of it shows
 * every extreme. A missing reading leaves no point.
 */
export function createThinner(points = 2000) {
  const half = Math.max(8, points >> 1)
  let lows: Point[] = []
  let highs: Point[] = []
  let size = 1
  let inside = 0
  let low: Point | undefined
  let high: Point | undefined
  const flush = (): void => {
    if (low !== undefined && high !== undefined) {
      lows.push(low)
      highs.push(high)
    }
    low = high = undefined
    inside = 0
    if (lows.length < half) return
    const pair = (list: Point[], better: (a: Point, b: Point) => Point) =>
      list.flatMap((p, i) => (i % 2 === 1 ? [] : [list[i + 1] === undefined ? p : better(p, list[i + 1]!)]))
    lows = pair(lows, (a, b) => (b.tempC < a.tempC ? b : a))
    highs = pair(highs, (a, b) => (b.tempC > a.tempC ? b : a))
    size *= 2
  }
  return {
    push: (minute: number, tempC: number): void => {
      if (tempC === tempC) {
        if (low === undefined || tempC < low.tempC) low = { minute, tempC }
        if (high === undefined || tempC > high.tempC) high = { minute, tempC }
      }
      if (++inside >= size) flush()
    },
    points: (): Point[] => {
      const ends = [...lows.map((p, i) => [p, highs[i]!]), ...(low && high ? [[low, high]] : [])]
      return ends.flatMap(([a, b]) => (a!.minute === b!.minute ? [a!] : a!.minute < b!.minute ? [a!, b!] : [b!, a!]))
    },
  }
}
