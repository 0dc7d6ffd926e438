/** A marked piece on a scale, days after stuffing. */
export type PieceWeight = { readonly piece: string; readonly day: number; readonly g: number }

/** Mean loss of the marked pieces weighed together, of what they weighed at first. */
export type MeanLoss = {
  readonly day: number
  readonly weightLossPct: number
  /** Standard deviation between the pieces; absent with one piece. */
  readonly sdPct?: number
  readonly pieces: readonly { readonly piece: string; readonly weightLossPct: number }[]
  /** Pieces that cannot be right beside the others, and are left out of the mean. */
  readonly strange?: readonly { readonly piece: string; readonly weightLossPct: number }[]
}

export type PieceStart = { readonly piece: string; readonly day: number; readonly g: number; readonly counts: boolean }

export type MarkedPieces = {
  readonly starts: readonly PieceStart[]
  readonly losses: readonly MeanLoss[]
}

/** Pieces weighed within this of one another are one weighing. */
const TOGETHER_DAYS = 0.25
/** A first weight later than this after stuffing misses a loss nobody knows, so it does not count. An assumption. */
const LATEST_START_DAY = 1
/** Pieces of one batch lose alike: one this far from the middle one was mistyped or is another's. Points of loss; an assumption. */
const STRANGE_PCT = 15

/** Of three pieces or more, the loss they stand about, and those that cannot be right beside the others; of two that differ nothing says which is. */
export function strangeBeside<P extends { readonly weightLossPct: number }>(all: readonly P[]): readonly P[] {
  if (all.length < 3) return []
  const middle = all.map((p) => p.weightLossPct).toSorted((a, b) => a - b)[Math.floor((all.length - 1) / 2)]!
  return all.filter((p) => Math.abs(p.weightLossPct - middle) > STRANGE_PCT)
}

/**
 * What marked pieces lost, weighing by weighing: each piece against its own first weight, pieces weighed within six hours taken together.
 * A piece first weighed more than a day after stuffing is named and left out.
 */
export function markedPieces(weights: readonly PieceWeight[]): MarkedPieces {
  const inTime = weights.toSorted((a, b) => a.day - b.day)
  const starts = new Map<string, PieceStart>()
  const after: (PieceWeight & { start: PieceStart })[] = []
  for (const w of inTime) {
    const start = starts.get(w.piece)
    if (!start) starts.set(w.piece, { ...w, counts: w.day <= LATEST_START_DAY })
    else if (start.counts) after.push({ ...w, start })
  }
  const sessions: (typeof after)[] = []
  for (const w of after) {
    const session = sessions.at(-1)
    if (session && w.day - session[0]!.day <= TOGETHER_DAYS) session.push(w)
    else sessions.push([w])
  }
  return { starts: [...starts.values()], losses: sessions.map(meanOf) }
}

function meanOf(session: readonly (PieceWeight & { readonly start: PieceStart })[]): MeanLoss {
  // A piece weighed twice in a session counts once, as last weighed.
  const last = new Map(session.map((w) => [w.piece, w]))
  const all = [...last.values()].map((w) => ({ piece: w.piece, weightLossPct: 100 * (1 - w.g / w.start.g) }))
  const strange = strangeBeside(all)
  const pieces = all.filter((p) => !strange.includes(p))
  const n = pieces.length
  const mean = pieces.reduce((s, p) => s + p.weightLossPct, 0) / n
  const squares = pieces.reduce((s, p) => s + (p.weightLossPct - mean) ** 2, 0)
  return {
    day: session.reduce((s, w) => s + w.day, 0) / session.length,
    weightLossPct: mean,
    ...(n > 1 ? { sdPct: Math.sqrt(squares / (n - 1)) } : {}),
    pieces,
    ...(strange.length > 0 ? { strange } : {}),
  }
}
