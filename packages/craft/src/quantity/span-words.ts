/** Two figures as "low to high" to three digits, or to as many more as it takes to tell them apart, at most six. */
export function spanWords(low: number, high: number): string {
  for (let digits = 3; digits < 6; digits += 1) {
    const [a, b] = [Number(low.toPrecision(digits)), Number(high.toPrecision(digits))]
    if (a !== b) return `${a} to ${b}`
  }
  return `${Number(low.toPrecision(6))} to ${Number(high.toPrecision(6))}`
}
