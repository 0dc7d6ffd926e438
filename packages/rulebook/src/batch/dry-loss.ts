import type { Finding } from '../rule.ts'
import type { BatchFacts } from './facts.ts'
import { trustOn } from './instrument-days.ts'
import { gramsOf, massUnits } from './grams.ts'
import { dayOf } from './local-day.ts'
import { recordFinding } from './own-rules.ts'

/** One marked piece: its first weight is the weight it was hung with. */
export type PieceLoss = {
  readonly piece: string
  readonly startG: number
  readonly lastG: number
  readonly lastTaken: string
  readonly lossPct: number
  /** Loss by what the scale may have been off at either weighing, ± percent. */
  readonly errorPct: number
  readonly weighings: readonly { readonly taken: string; readonly g: number; readonly lossPct: number }[]
  /** Why its weighings decide nothing. */
  readonly unproven?: string
  readonly settle?: string
}

export type LossJudged = {
  readonly findings: readonly Finding[]
  readonly pieces: readonly PieceLoss[]
  readonly meanPct?: number
  /** Standard deviation between the pieces. */
  readonly sdPct?: number
  readonly lowPct?: number
  readonly highPct?: number
}

/** Student's t, two-sided 95 %, for one to nine degrees of freedom; two from there on is near enough. Standard table. */
const t95 = [12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262] as const

/** Every weighing of a marked piece in grams; without grams where its unit is not one of mass. */
const weighingsOf = (facts: BatchFacts, piece: string) =>
  (facts.measures ?? [])
    .flatMap((m) => (m.what === 'weight' && m.piece === piece && m.value !== undefined && m.value > 0 ? [m] : []))
    .map((m) => ({ taken: m.taken, instrument: m.instrument, unit: m.unit, g: gramsOf(m.value!, m.unit) }))
    .toSorted((a, b) => a.taken.localeCompare(b.taken))

function pieceOf(facts: BatchFacts, piece: string): PieceLoss | undefined {
  const weighed = weighingsOf(facts, piece).flatMap(({ g, ...w }) => (g === undefined ? [] : [{ ...w, g }]))
  const [first, last] = [weighed[0], weighed.at(-1)]
  if (!first || !last || first === last) return undefined
  const startG = first.g
  const lost = (g: number): number => 100 * (1 - g / startG)
  const trusts = [first, last].map((m) => trustOn(facts, m.instrument, dayOf(facts, m.taken), 'scale'))
  const bad = trusts.find((t) => !t.ok)
  const readable = trusts.flatMap((t) => (t.ok ? [t.instrument] : []))
  const unread = readable.find((i) => i.readabilityG === undefined)
  const errorG = readable.reduce((s, i) => s + (i.readabilityG ?? 0) / 2 + (i.toleranceG ?? 0), 0)
  const lastG = last.g
  return {
    piece,
    startG,
    lastG,
    lastTaken: last.taken,
    lossPct: lost(lastG),
    errorPct: (100 * errorG) / startG,
    weighings: weighed.map(({ taken, g }) => ({ taken, g, lossPct: lost(g) })),
    ...(bad && !bad.ok
      ? { unproven: bad.because, settle: bad.settle }
      : unread
        ? { unproven: `what ${unread.name} can read is not known`, settle: `enter the readability of ${unread.name}` }
        : {}),
  }
}

/** Steps in their order: what a piece loses by the cook is lost between one of the first and one of the last. */
const beforeCook = ['mix', 'stuff', 'ferment', 'smoke']
const afterCook = ['cook', 'chill', 'dry', 'pack']

/**
 * Mean loss of marked pieces over the cook, percent: weighed first before it and last after it, on scales in date. Nothing where any piece does
 * not say it, or none was marked.
 */
export function cookLossPct(facts: BatchFacts): number | undefined {
  const weighed = (facts.measures ?? []).filter((m) => m.what === 'weight' && m.piece !== undefined)
  const { pieces, meanPct } = judgeLoss(facts)
  const through = [...new Set(weighed.map((m) => m.piece!))].every((piece) => {
    const steps = weighed.filter((m) => m.piece === piece).toSorted((a, b) => a.taken.localeCompare(b.taken))
    const found = pieces.find((p) => p.piece === piece)
    return (
      found !== undefined &&
      found.unproven === undefined &&
      beforeCook.includes(steps[0]!.step) &&
      afterCook.includes(steps.at(-1)!.step)
    )
  })
  return through && pieces.length > 0 ? meanPct : undefined
}

/** Loss of the marked pieces: their mean, the spread between them and the error of their scales, against the loss the recipe dries to. */
export function judgeLoss(facts: BatchFacts): LossJudged {
  const names = [
    ...new Set((facts.measures ?? []).flatMap((m) => (m.what === 'weight' && m.piece !== undefined ? [m.piece] : []))),
  ]
  const pieces = names.flatMap((n) => pieceOf(facts, n) ?? [])
  const target = facts.recipeBody.dry?.lossPct
  const n = pieces.length
  const meanPct = n === 0 ? undefined : pieces.reduce((s, p) => s + p.lossPct, 0) / n
  const sdPct = n < 2 ? undefined : Math.sqrt(pieces.reduce((s, p) => s + (p.lossPct - meanPct!) ** 2, 0) / (n - 1))
  const errorPct = Math.max(0, ...pieces.map((p) => p.errorPct))
  const half = sdPct === undefined ? undefined : ((t95[n - 2] ?? 2) * sdPct) / Math.sqrt(n) + errorPct
  const interval =
    meanPct === undefined || half === undefined ? {} : { lowPct: meanPct - half, highPct: meanPct + half }
  const found = {
    pieces,
    ...(meanPct === undefined ? {} : { meanPct }),
    ...(sdPct === undefined ? {} : { sdPct }),
    ...interval,
  }
  const strange = names.flatMap((n) =>
    weighingsOf(facts, n).flatMap((w) => (w.g === undefined ? [{ piece: n, ...w }] : [])),
  )
  return { findings: target === undefined || target === 0 ? [] : [ofTarget(target, found, strange[0])], ...found }
}

function ofTarget(
  target: number,
  { pieces, meanPct, lowPct, highPct }: Omit<LossJudged, 'findings'>,
  strange: { readonly piece: string; readonly unit: string | undefined } | undefined,
): Finding {
  const cannot = (because: string, settle: string): Finding =>
    recordFinding('dryLoss', { verdict: 'cannot-tell', because, settle })
  if (strange)
    return cannot(
      `${strange.piece} was weighed ${strange.unit === undefined ? 'in no stated unit' : `in ${JSON.stringify(strange.unit)}`}, which is not known`,
      `its weight in ${massUnits.join(', ')}`,
    )
  if (meanPct === undefined)
    return cannot('no marked piece was weighed twice', 'three marked pieces, weighed as hung and at the end')
  const shown = `${meanPct.toFixed(1)} % mean of ${pieces.length} piece${pieces.length === 1 ? '' : 's'}${lowPct === undefined ? '' : ` (${lowPct.toFixed(1)} to ${highPct!.toFixed(1)} %)`}; the recipe asks for ${target} %`
  const weak = pieces.find((p) => p.unproven !== undefined)
  if (weak) return cannot(`${shown}; ${weak.piece}: ${weak.unproven}`, weak.settle ?? 'a weighing on a scale in date')
  if (lowPct === undefined || highPct === undefined)
    return cannot(`${shown}; one piece says nothing of the others`, 'two more marked pieces')
  if (lowPct >= target) return recordFinding('dryLoss', { verdict: 'pass', because: shown })
  if (highPct < target) return recordFinding('dryLoss', { verdict: 'fail', because: shown })
  return cannot(
    `${shown}; the spread of the pieces and the scales lie on both sides of it`,
    'more days, or more marked pieces',
  )
}
