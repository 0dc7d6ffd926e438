import { strengthOf } from '@forcemeat/craft/cure/agent'
import { ratioInterval } from '@forcemeat/craft/cure/dose-interval'
import type { Material } from '@forcemeat/craft/materials/schema'
import type { Finding, Measure } from '../rule.ts'
import type { Known } from '../measure.ts'
import { inDate, standingOf, type BatchFacts, type BatchInstrument, type BatchLine } from './facts.ts'
import { recordFinding } from './own-rules.ts'

export type WeighedLine = {
  readonly line: BatchLine
  readonly kg: number
  /** Weighings behind the figure; none where the line still waits. */
  readonly parts: readonly { readonly kg: number; readonly lot?: string; readonly instrument?: string }[]
}

/**
 * Lines with what was weighed of them; a line not weighed yet stands with its target. A lot of another material than the line asks for stands
 * as a line of its own, of what it is.
 */
export function weighedLines({
  lines,
  weighings,
  lots,
}: Pick<BatchFacts, 'lines' | 'weighings' | 'lots'>): WeighedLine[] {
  return lines.flatMap((line) => {
    const parts = weighings
      .filter((w) => w.line === line.line)
      .map((w) => {
        const lot = w.lot ?? line.lot
        const { instrument } = w
        return { kg: w.kg, ...(lot === undefined ? {} : { lot }), ...(instrument === undefined ? {} : { instrument }) }
      })
    if (parts.length === 0) return [{ line, parts, kg: line.targetKg }]
    const materialOf = (p: (typeof parts)[number]): string =>
      lots.find((l) => l.lot === p.lot)?.material ?? line.material
    return [...Map.groupBy(parts, materialOf)].map(([material, same]) => ({
      line: { ...line, material },
      parts: same,
      kg: same.reduce((s, p) => s + p.kg, 0),
    }))
  })
}

/** Whether every line was weighed. */
export function judgeWeighed(lines: readonly WeighedLine[]): Finding {
  const waiting = lines.filter((l) => l.parts.length === 0 && l.line.targetKg > 0)
  if (waiting.length === 0)
    return recordFinding('weighed', { verdict: 'pass', because: `all ${lines.length} lines are recorded` })
  return recordFinding('weighed', {
    verdict: 'cannot-tell',
    because: `not weighed yet: ${waiting.map((l) => l.line.material).join(', ')}`,
    settle: 'weigh and record these lines',
  })
}

/** Lots of another material than their line asks for: they are judged as what they are, and it is said. */
export function judgeMaterials(facts: Pick<BatchFacts, 'lines'>, weighed: readonly WeighedLine[]): Finding[] {
  const other = weighed.flatMap((w) => {
    const asked = facts.lines.find((l) => l.line === w.line.line)?.material
    return asked === undefined || asked === w.line.material
      ? []
      : [`${w.parts.map((p) => p.lot).join(', ')} is ${w.line.material}, and line ${w.line.line} asks for ${asked}`]
  })
  if (other.length === 0) return []
  return [
    recordFinding('material', {
      verdict: 'fail',
      because: `${other.join('; ')}: it is judged as what was weighed`,
      settle: 'correct the weighing where the lot is wrong, or save a version of the recipe with what went in',
    }),
  ]
}

const isKnown = (m: Measure | undefined): m is Known => m !== undefined && 'value' in m

type Scaled = { readonly low: number; readonly high: number } | { readonly missing: string; readonly settle: string }

/** How far a cure line may lie from what the scales showed, as factors of it. */
function errorOf(
  l: WeighedLine,
  meat: readonly WeighedLine[],
  meatKg: number,
  instruments: ReadonlyMap<string, BatchInstrument>,
): Scaled {
  let [low, high] = [0, 0]
  for (const part of l.parts) {
    const scale = part.instrument === undefined ? undefined : instruments.get(part.instrument)
    if (!scale)
      return {
        missing: `the scale that ${l.line.material} was weighed on is not recorded`,
        settle: 'say which scale it was',
      }
    if (!inDate(scale))
      return {
        missing: `the scale that ${l.line.material} was weighed on: ${standingOf(scale)}`,
        settle: `check ${scale.name} with a test weight and record it`,
      }
    if (scale.readabilityG === undefined)
      return { missing: `what ${scale.name} can read is not known`, settle: `enter the readability of ${scale.name}` }
    const basis = meat
      .flatMap((m) => m.parts.map((p) => (p.instrument === undefined ? undefined : instruments.get(p.instrument))))
      .find((s) => s?.readabilityG !== undefined)
    const span = ratioInterval({
      agentG: part.kg * 1000,
      basisG: meatKg * 1000,
      scale: {
        readabilityG: scale.readabilityG,
        ...(scale.toleranceG === undefined ? {} : { toleranceG: scale.toleranceG }),
      },
      ...(basis?.readabilityG === undefined
        ? {}
        : {
            basisScale: {
              readabilityG: basis.readabilityG,
              ...(basis.toleranceG === undefined ? {} : { toleranceG: basis.toleranceG }),
            },
          }),
    })
    low += span.low * meatKg
    high += span.high * meatKg
  }
  return { low: low / l.kg, high: high / l.kg }
}

const cureMeasures = {
  nitrite: ['nitritePpm', 'nitritePpmIon'],
  nitrate: ['nitratePpm', 'nitratePpmIon'],
  erythorbate: ['erythorbatePpm'],
  ascorbate: ['ascorbatePpm'],
} as const

/**
 * Give the measures of cure the interval of the scales they were weighed on. Where a scale is not named, past its check or of unknown
 * readability, the measure is not known.
 */
export function withScales(
  measures: Readonly<Record<string, Measure>>,
  lines: readonly WeighedLine[],
  facts: BatchFacts,
  find: (material: string) => Material | undefined,
): Record<string, Measure> {
  const instruments = new Map(facts.instruments.map((i) => [i.instrument, i]))
  const meat = lines.filter((l) => find(l.line.material)?.meatBlock)
  const meatKg = meat.reduce((s, l) => s + l.kg, 0)
  const found: Record<string, Measure> = { ...measures }
  for (const [family, names] of Object.entries(cureMeasures) as [keyof typeof cureMeasures, readonly string[]][]) {
    const carrying = lines.filter((l) => {
      const agent = find(l.line.material)?.agent
      return l.kg > 0 && l.parts.length > 0 && agent !== undefined && strengthOf(agent)[family] > 0
    })
    if (carrying.length === 0 || meatKg === 0) continue
    const errors = carrying.map((l) => ({
      weight: l.kg * strengthOf(find(l.line.material)!.agent!)[family],
      ...errorOf(l, meat, meatKg, instruments),
    }))
    const missing = errors.find((e) => 'missing' in e)
    const all = errors.reduce((s, e) => s + e.weight, 0)
    const factor = (of: 'low' | 'high') => errors.reduce((s, e) => s + e.weight * ('missing' in e ? 1 : e[of]), 0) / all
    for (const name of names) {
      const m = found[name]
      if (!isKnown(m)) continue
      found[name] =
        missing && 'missing' in missing
          ? { missing: missing.missing, settle: missing.settle }
          : { value: m.value, low: (m.low ?? m.value) * factor('low'), high: (m.high ?? m.value) * factor('high') }
    }
  }
  return found
}
