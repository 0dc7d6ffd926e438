/**
 * Where a figure comes from. `mark` says how it was read:
 * `seen` in the document itself, `quoted` from another document that reproduces it, `computed` here from cited figures,
 * `common-practice` of the trade with no document behind it, `from-memory` not confirmed against any document.
 */
export type Mark = 'seen' | 'quoted' | 'computed' | 'common-practice' | 'from-memory'

export type Source = {
  readonly document: string
  readonly section: string
  readonly edition: string
  readonly url?: string
  readonly mark: Mark
}

const rank: Readonly<Record<Mark, number>> = { seen: 0, computed: 1, quoted: 2, 'common-practice': 3, 'from-memory': 4 }

/** True where a figure read this way may carry a verdict by itself. */
export const canDecide = (mark: Mark): boolean => rank[mark] <= rank.quoted
