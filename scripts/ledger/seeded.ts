/** Park–Miller generator (Comm. ACM 31 (1988) 1192): whole numbers, the same on every machine. */
export function seeded(seed: number): () => number {
  let state = (seed % 2147483646) + 1
  return () => {
    state = (state * 48271) % 2147483647
    return (state - 1) / 2147483646
  }
}
