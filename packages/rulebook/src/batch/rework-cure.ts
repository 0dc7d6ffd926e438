import { step } from '@forcemeat/craft/cure/working'
import type { WorkingStep } from '@forcemeat/craft/finding'
import { isKnown, spanOf } from '../measure.ts'
import type { Finding, Measure } from '../rule.ts'
import type { BatchFacts } from './facts.ts'
import { recordFinding } from './own-rules.ts'
import { ownOf, type Amount, type OwnAdditives, type Span } from './rework-additives.ts'
import { reworkOf } from './rework-of.ts'

/** Rework of rework of rework: further back than this nobody follows. */
const MOST_STEPS = 12

/** A batch behind rework, and how much of what was weighed into it came back: from rework as taken raw to rework after all its loss. */
type Behind = { readonly own: OwnAdditives; readonly weight: Span; readonly path: string }
type Unknown = { readonly because: string; readonly settle: string }
export type ReworkCure = {
  /** Measures with what the rework brings; those that limits at most are held against. */
  readonly measures: Readonly<Record<string, Measure>>
  /** Measures without it: what was freshly added, on all the meat. A least amount is asked of these. */
  readonly fresh: Readonly<Record<string, Measure>>
  readonly finding: Finding
  readonly working: readonly WorkingStep[]
}

const SETTLE =
  'record what was weighed into the batch the rework came out of, line by line and on which scale, or analyse the rework, or leave it out'
const n = (x: number): string => String(Number(x.toPrecision(4)))

/** Every batch behind the rework of one, with its weight; or why it cannot be told. */
function behind(
  facts: BatchFacts,
  own: OwnAdditives,
  weight: Span,
  path: readonly string[],
): readonly Behind[] | Unknown {
  const found: Behind[] = []
  const batches = new Map((facts.ancestry?.batches ?? []).map((b) => [b.batch, b]))
  const rework = reworkOf({ ...facts, lots: [...facts.lots, ...(facts.ancestry?.lots ?? [])] })
  for (const { lot, kg } of own.rework) {
    const of = rework.get(lot)
    if (!of) return { because: `${lot}: what it came out of is not known`, settle: SETTLE }
    const unknown = (why: string): Unknown => ({
      because: `${lot}, out of ${of.batch}: ${why}`,
      settle: SETTLE,
    })
    if (path.includes(of.batch)) return unknown('it comes out of a batch that it went into')
    if (path.length > MOST_STEPS) return unknown(`it goes back over more than ${MOST_STEPS} batches`)
    const origin = batches.get(of.batch)
    const said = origin?.made
    if (!origin || !said) return unknown('what was weighed into that batch is not known')
    const reckoned = ownOf(origin, said, facts)
    if ('unknown' in reckoned) return unknown(reckoned.unknown)
    const share = {
      low: (weight.low * kg) / reckoned.totalKg,
      high: (weight.high * kg * reckoned.mostFactor) / reckoned.totalKg,
    }
    found.push({ own: reckoned, weight: share, path: lot })
    const deeper = behind(facts, reckoned, share, [...path, of.batch])
    if ('because' in deeper) return deeper
    found.push(...deeper.map((d) => ({ ...d, path: `${lot} ← ${d.path}` })))
  }
  return found
}

const sum = (of: readonly Behind[], f: (b: Behind) => number): number => of.reduce((s, b) => s + f(b), 0)

/** Meat block with that in the rework, kg: as taken raw, and after all its loss. */
const meatWith = (own: OwnAdditives, from: readonly Behind[]): Span => ({
  low: own.meatKg + sum(from, (b) => b.weight.low * b.own.meatKg),
  high: own.meatKg + sum(from, (b) => b.weight.high * b.own.meatKg),
})

/**
 * The highest mean of what was freshly added and what came with rework: each batch behind it with the least or the most of its weight,
 * whichever brings the mean up.
 */
function highest(own: { amount: number; kg: number }, from: readonly Behind[], name: string): number {
  const amountOf = (b: Behind): number => b.own.amounts[name]!.high
  let mean = 0
  for (;;) {
    const w = (b: Behind): number => (amountOf(b) > mean * b.own.meatKg ? b.weight.high : b.weight.low)
    const next = (own.amount + sum(from, (b) => w(b) * amountOf(b))) / (own.kg + sum(from, (b) => w(b) * b.own.meatKg))
    if (!(next > mean * (1 + 1e-12))) return next
    mean = next
  }
}

/** One measure with the rework in it, and without. */
function joined(name: string, own: OwnAdditives, from: readonly Behind[]): { all: Measure; fresh: Measure } {
  const mine = own.amounts[name]
  if (mine === undefined) return { all: own.measures[name]!, fresh: own.measures[name]! }
  for (const b of from) {
    const m = b.own.measures[name]
    if (m !== undefined && isKnown(m)) continue
    const missing = `what ${b.path} brings is not known: ${m?.missing ?? name} of batch ${b.own.batch}`
    return { all: { missing, settle: m?.settle ?? SETTLE }, fresh: own.measures[name]! }
  }
  const of = (b: Behind): Amount => b.own.amounts[name]!
  const value = sum(from, (b) => b.weight.low * of(b).value)
  const basis = own.basisOf(name)
  if (basis !== 'meat') {
    const kg = basis === 'mix' ? own.totalKg : own.finishedKg
    const concentrated = basis === 'finished' ? own.mostConcentrated : 1
    const high = mine.high + concentrated * sum(from, (b) => b.weight.high * of(b).high)
    const low = mine.low + sum(from, (b) => b.weight.low * of(b).low)
    return {
      all: { value: (mine.value + value) / kg, low: low / kg, high: high / kg },
      fresh: own.measures[name]!,
    }
  }
  const meat = meatWith(own, from)
  const least = (side: keyof Span) => (mine.low + sum(from, (b) => b.weight[side] * of(b).low)) / meat[side]
  return {
    all: {
      value: (mine.value + value) / meat.low,
      low: Math.min(least('low'), least('high')),
      high: highest({ amount: mine.high, kg: own.meatKg }, from, name),
    },
    fresh: { value: mine.value / meat.high, low: mine.low / meat.high, high: mine.high / meat.low },
  }
}

/** The working of one measure, to be redone by hand. */
function workingOf(own: OwnAdditives, from: readonly Behind[], all: Measure): WorkingStep[] {
  if (!isKnown(all)) return []
  const nitrite = 'nitritePpm'
  const mg = own.amounts[nitrite]!.value
  const mean = (b: Behind): number => b.own.amounts[nitrite]!.value / b.own.meatKg
  const steps = from.flatMap((b) => [
    step(
      `meat block in ${b.path}, out of ${b.own.batch}`,
      `${n(b.weight.low * b.own.totalKg)} kg × ${n(b.own.meatKg)} kg / ${n(b.own.totalKg)} kg, as taken before any loss`,
      b.weight.low * b.own.meatKg,
      'kg',
    ),
    step(
      `nitrite it brings, as NaNO2`,
      `${n(b.weight.low * b.own.meatKg)} kg × ${n(mean(b))} mg/kg ingoing of ${b.own.batch}`,
      b.weight.low * b.own.amounts[nitrite]!.value,
      'mg',
    ),
  ])
  const { low, high } = spanOf(all)
  return [
    step('nitrite freshly weighed in, as NaNO2', 'of the lines without rework', mg, 'mg'),
    step('meat block without rework', 'of the lines without rework', own.meatKg, 'kg'),
    ...steps,
    step(
      'ingoing nitrite with the rework, as NaNO2',
      '(fresh + brought) / (meat block + meat block in the rework)',
      all.value,
      'mg/kg',
    ),
    step('at least, with every scale and loss', 'lowest mean', low, 'mg/kg'),
    step('at most, with every scale and loss', 'highest mean', high, 'mg/kg'),
  ]
}

function said(from: readonly Behind[], nitrite: Measure | undefined): string {
  const brought = from.map(({ path, own, weight }) => {
    const mg = (name: string): string => n((own.amounts[name]?.value ?? 0) * weight.low)
    return `${path}, out of ${own.batch}: ${n(weight.low * own.meatKg)} kg of meat block with ${mg('nitritePpm')} mg of nitrite and ${mg('nitratePpm')} mg of nitrate`
  })
  const with_ =
    nitrite && isKnown(nitrite) ? `. Ingoing nitrite with it ${n(nitrite.value)} mg/kg as sodium nitrite` : ''
  return `${brought.join('; ')}${with_}`
}

/**
 * What the rework of a batch brings of cure and additives, counted to what was weighed in. Rework is taken apart into the meat block and the
 * additives of the batch it came out of, through further rework; on the meat block where a limit is on it. Nothing where no rework went in.
 *
 * @param measures of the batch as weighed, with the error of its scales
 */
export function withRework(facts: BatchFacts, own: OwnAdditives): ReworkCure | undefined {
  if (own.rework.length === 0) return undefined
  const from = behind(facts, own, { low: 1, high: 1 }, [facts.batch])
  const names = Object.keys(own.measures)
  if ('because' in from) {
    const missing: Measure = {
      missing: `what the rework brings of cure and additives is not known: ${from.because}`,
      settle: from.settle,
    }
    return {
      measures: Object.fromEntries(names.map((name) => [name, missing])),
      fresh: {},
      finding: recordFinding('reworkCure', { verdict: 'cannot-tell', ...from }),
      working: [],
    }
  }
  const both = names.map((name) => [name, joined(name, own, from)] as const)
  const measures: Record<string, Measure> = Object.fromEntries(both.map(([name, m]) => [name, m.all]))
  const { finishedPctOfMeatBlock: finished } = own
  if (finished !== undefined) {
    const meat = meatWith(own, from)
    const pct = (kg: number): number => (finished * own.allMeatKg) / kg
    measures['finishedPctOfMeatBlock'] = { value: pct(meat.low), low: pct(meat.high), high: pct(meat.low) }
  }
  const lacking = both.flatMap(([, { all }]) => (isKnown(all) || !all.missing.startsWith('what ') ? [] : [all]))
  const nitrite = measures['nitritePpm']
  return {
    measures,
    fresh: Object.fromEntries(both.map(([name, m]) => [name, m.fresh])),
    finding:
      lacking.length > 0
        ? recordFinding('reworkCure', {
            verdict: 'cannot-tell',
            because: [...new Set(lacking.map((m) => m.missing))].join('; '),
            settle: [...new Set(lacking.map((m) => m.settle ?? SETTLE))].join('; '),
          })
        : recordFinding('reworkCure', { verdict: 'pass', because: said(from, nitrite) }),
    working: nitrite ? workingOf(own, from, nitrite) : [],
  }
}
