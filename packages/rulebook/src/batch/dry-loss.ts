import { strangeBeside } from '@forcemeat/craft/dry/marked-pieces'
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
  /** Why it cannot have lost that; it is left out of the mean. */
  readonly strange?: string
  /** Why its weighings decide nothing. */
  readonly unproven?: string
  readonly settle?: string
}

export type LossJudged = {
  readonly findings: readonly Finding[]
  /** Every piece weighed twice; those that are strange count in none of the figures. */
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

/** Meat holds no more water than this, %, where that of the mix is not known: lean of about 75, common practice. */
const MOST_WATER_PCT = 80
/** A piece this much heavier than it was hung is no rounding of a scale, %. A choice of ours. */
const GAIN_PCT = 1

/** Pieces that cannot have lost what their weights say: more than their water, less than nothing, or far from what the others lost. */
function withStrange(pieces: readonly PieceLoss[], waterPct: number): PieceLoss[] {
  const impossible = (p: PieceLoss): string | undefined =>
    p.lossPct > waterPct
      ? `${p.piece} would have lost ${p.lossPct.toFixed(1)} %, more than its water`
      : p.lossPct < -GAIN_PCT
        ? `${p.piece} gained ${(-p.lossPct).toFixed(1)} % since it was hung`
        : undefined
  const possible = pieces.filter((p) => impossible(p) === undefined)
  const beside = new Set(
    strangeBeside(possible.map((p) => ({ piece: p.piece, weightLossPct: p.lossPct }))).map((p) => p.piece),
  )
  const rest = possible.filter((p) => !beside.has(p.piece))
  const usual = rest.reduce((s, p) => s + p.lossPct, 0) / Math.max(1, rest.length)
  return pieces.map((p) => {
    const strange =
      impossible(p) ??
      (beside.has(p.piece)
        ? `${p.piece} would have lost ${p.lossPct.toFixed(1)} %, the others ${usual.toFixed(1)} %`
        : undefined)
    return strange === undefined ? p : { ...p, strange }
  })
}

/**
 * Loss of the marked pieces: their mean, the spread between them and the error of their scales, against the loss the recipe dries to. A piece
 * that cannot have lost what its weights say is left out and named; one that lost less than the others may be wet, and keeps the rest from passing.
 *
 * @param waterPct water of the mix as stuffed, which no piece can lose more of
 */
export function judgeLoss(facts: BatchFacts, waterPct: number = MOST_WATER_PCT): LossJudged {
  const names = [
    ...new Set((facts.measures ?? []).flatMap((m) => (m.what === 'weight' && m.piece !== undefined ? [m.piece] : []))),
  ]
  const all = withStrange(
    names.flatMap((n) => pieceOf(facts, n) ?? []),
    waterPct,
  )
  const pieces = all.filter((p) => p.strange === undefined)
  const target = facts.recipeBody.dry?.lossPct
  const n = pieces.length
  const meanPct = n === 0 ? undefined : pieces.reduce((s, p) => s + p.lossPct, 0) / n
  const sdPct = n < 2 ? undefined : Math.sqrt(pieces.reduce((s, p) => s + (p.lossPct - meanPct!) ** 2, 0) / (n - 1))
  const errorPct = Math.max(0, ...pieces.map((p) => p.errorPct))
  const half = sdPct === undefined ? undefined : ((t95[n - 2] ?? 2) * sdPct) / Math.sqrt(n) + errorPct
  const interval =
    meanPct === undefined || half === undefined ? {} : { lowPct: meanPct - half, highPct: meanPct + half }
  const found = {
    pieces: all,
    ...(meanPct === undefined ? {} : { meanPct }),
    ...(sdPct === undefined ? {} : { sdPct }),
    ...interval,
  }
  const strange = names.flatMap((n) =>
    weighingsOf(facts, n).flatMap((w) => (w.g === undefined ? [{ piece: n, ...w }] : [])),
  )
  return { findings: target === undefined || target === 0 ? [] : [ofTarget(target, found, strange[0])], ...found }
}

const CORRECT = 'the weight corrected, or what became of the piece and another in its place'

function ofTarget(
  target: number,
  { pieces: all, meanPct, lowPct, highPct }: Omit<LossJudged, 'findings'>,
  unit: { readonly piece: string; readonly unit: string | undefined } | undefined,
): Finding {
  const cannot = (because: string, settle: string): Finding =>
    recordFinding('dryLoss', { verdict: 'cannot-tell', because, settle })
  if (unit)
    return cannot(
      `${unit.piece} was weighed ${unit.unit === undefined ? 'in no stated unit' : `in ${JSON.stringify(unit.unit)}`}, which is not known`,
      `its weight in ${massUnits.join(', ')}`,
    )
  const strange = all.filter((p) => p.strange !== undefined)
  const pieces = all.filter((p) => p.strange === undefined)
  if (meanPct === undefined && strange.length > 0) return cannot(strange.map((p) => p.strange).join('; '), CORRECT)
  if (meanPct === undefined)
    return cannot('no marked piece was weighed twice', 'three marked pieces, weighed as hung and at the end')
  const left = strange.length === 0 ? '' : `; ${strange.map((p) => p.strange).join(', ')}: left out`
  const shown = `${meanPct.toFixed(1)} % mean of ${pieces.length} piece${pieces.length === 1 ? '' : 's'}${lowPct === undefined ? '' : ` (${lowPct.toFixed(1)} to ${highPct!.toFixed(1)} %)`}; the recipe asks for ${target} %${left}`
  const weak = pieces.find((p) => p.unproven !== undefined)
  if (weak) return cannot(`${shown}; ${weak.piece}: ${weak.unproven}`, weak.settle ?? 'a weighing on a scale in date')
  if (lowPct === undefined || highPct === undefined)
    return cannot(`${shown}; one piece says nothing of the others`, 'two more marked pieces')
  const behind = strange.find((p) => p.lossPct < meanPct)
  if (lowPct >= target && behind) return cannot(shown, CORRECT)
  if (lowPct >= target) return recordFinding('dryLoss', { verdict: 'pass', because: shown })
  if (highPct < target) return recordFinding('dryLoss', { verdict: 'fail', because: shown })
  return cannot(
    `${shown}; the spread of the pieces and the scales lie on both sides of it`,
    'more days, or more marked pieces',
  )
}
