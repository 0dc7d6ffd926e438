/** Wrong passphrases allowed from one address (or for one person), and from all together, in a quarter of an hour. */
export type Allowed = { readonly each: number; readonly together: number }
const usual: Allowed = { each: 5, together: 50 }
const spanMs = 15 * 60 * 1000

export type Attempts = {
  /** Seconds to wait before the next try, 0 where it may be made now. */
  readonly wait: (address: string) => number
  readonly failed: (address: string) => void
  /** Forgets the newest try counted for an address: it was right after all. */
  readonly passed: (address: string) => void
}

/** Counts wrong passphrases, so that guessing is slow however many addresses guess. */
export function createAttempts(now: () => Date, { each, together }: Allowed = usual): Attempts {
  const fails: { at: number; address: string }[] = []
  const recent = () => {
    const oldest = now().getTime() - spanMs
    while (fails.length > 0 && fails[0]!.at <= oldest) fails.shift()
    return fails
  }
  return {
    wait: (address) => {
      const all = recent()
      const own = all.filter((f) => f.address === address)
      const first = own.length >= each ? own.at(-each) : all.length >= together ? all.at(-together) : undefined
      return first ? Math.max(1, Math.ceil((first.at + spanMs - now().getTime()) / 1000)) : 0
    },
    failed: (address) => {
      recent().push({ at: now().getTime(), address })
    },
    passed: (address) => {
      const last = fails.findLastIndex((f) => f.address === address)
      if (last >= 0) fails.splice(last, 1)
    },
  }
}
