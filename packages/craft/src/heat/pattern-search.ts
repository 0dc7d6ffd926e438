export type Search = {
  readonly start: readonly number[]
  /** First step along each unknown, and the step at which the search rests. */
  readonly step: readonly number[]
  readonly least: readonly number[]
  /** Further starts; the best of all is gone on from. */
  readonly others: readonly (readonly number[])[]
  readonly evaluations: number
  readonly price: (x: readonly number[]) => number
}

/** Pattern search of Hooke and Jeeves (1961): tries each unknown up and down, leaps on along what helped, halves the steps when nothing does. */
export function searchPattern({ start, step, least, others, evaluations, price }: Search): {
  x: number[]
  price: number
} {
  let left = evaluations
  const ask = (x: readonly number[]) => {
    left--
    return price(x)
  }
  let [best, cost] = [[...start], ask(start)]
  for (const x of others) {
    const c = ask(x)
    if (c < cost) [best, cost] = [[...x], c]
  }
  const size = [...step]
  for (;;) {
    if (left <= 0 || size.every((s, i) => s < least[i]!)) break
    const from = best
    const before = cost
    for (const i of size.keys()) {
      for (const sign of [1, -1]) {
        if (left <= 0) break
        const x = best.map((v, j) => (j === i ? v + sign * size[i]! : v))
        const c = ask(x)
        if (c < cost - 1e-9) {
          ;[best, cost] = [x, c]
          break
        }
      }
    }
    if (cost < before - 1e-9) {
      const leap = best.map((v, i) => v + (v - from[i]!))
      if (left > 0) {
        const c = ask(leap)
        if (c < cost) [best, cost] = [leap, c]
      }
    } else size.forEach((s, i) => (size[i] = s / 2))
  }
  return { x: best, price: cost }
}
