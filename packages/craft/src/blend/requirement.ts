import { InvalidInput, type Fault } from '../calculation.ts'
import { normalQuantile } from '../numeric/normal.ts'
import { lacking, linesOf } from './measure.ts'
import { measures, type BlendLimit, type BlendMaterial, type MeasureName } from './schema.ts'

/** One batch to be made, with its own columns: the share of each material it may take. */
export type Batch = {
  readonly id: string | undefined
  readonly kg: number
  readonly materials: readonly BlendMaterial[]
  readonly limits: readonly BlendLimit[]
  readonly confidencePct: number | undefined
  /** Where its limits stand in the input, for faults. */
  readonly path: string
}

/** A half-space on the shares of one batch, in points: Σ coefficient·share ≤ bound; with `spread`, a cone. */
export type Half = {
  readonly coefficients: readonly number[]
  readonly spread?: readonly number[]
  readonly bound: number
  /** Change of `bound` as the stated value moves by one point: −1 for a minimum. */
  readonly sign: 1 | -1
}

/** One thing asked of the blend that may be dropped or loosened: what the maker reads, and what the solver holds. */
export type Requirement = {
  readonly of: string
  readonly side: 'min' | 'max' | 'available' | 'whole'
  readonly value: number
  readonly unit: '%' | 'kg' | 'money per kg'
  readonly batch: number | undefined
  readonly halves: readonly Half[]
  /** What the value is a percent of, where not of the batch. */
  readonly basis?: string
  /** True for what is a fact of the recipe and not a choice: it may clash, and is never offered to be moved. */
  readonly fixed?: boolean
  /** How far the rows move, in points of the batch, for one point of the stated value, at the shares of a solution; 1 without it. */
  readonly pointAt?: (shares: readonly number[]) => number
  /** A bound on one share of a batch, in place of halves. */
  readonly bound?: { readonly material: number; readonly which: 'lower' | 'upper' | 'integer'; readonly share: number }
}

const isMeasure = (of: string): of is MeasureName => (measures as readonly string[]).includes(of)

const isLinear = (of: string): of is Exclude<MeasureName, 'collagenInProtein'> =>
  isMeasure(of) && of !== 'collagenInProtein'

const faultOf = (path: string, message: string): Fault => ({ path, message })

/** Faults that only show once limits and materials are seen together. @throws InvalidInput with all of them. */
export function checkLimits(batch: Batch, all: readonly BlendMaterial[]): void {
  const faults: Fault[] = []
  const ids = new Set(batch.materials.map((m) => m.id))
  const kinds = new Set(batch.materials.map((m) => m.species))
  const place = (id: string) => `materials[${all.findIndex((m) => m.id === id)}]`
  batch.limits.forEach((limit, i) => {
    const path = `${batch.path}[${i}]`
    if (isMeasure(limit.of)) {
      for (const m of batch.materials)
        for (const c of lacking(m, limit.of))
          faults.push(
            faultOf(
              `${place(m.id)}.composition.${c}`,
              `is missing; the limit on ${limit.of} needs it of every material (0 where there is none)`,
            ),
          )
      if (
        (limit.of === 'addedWater' || limit.of === 'fatPlusAddedWater') &&
        limit.minPct !== undefined &&
        batch.materials.some((m) => m.protein === 'other')
      )
        faults.push(
          faultOf(
            `${path}.minPct`,
            `cannot be held on ${limit.of} where a material carries protein other than of meat; allowed: maxPct`,
          ),
        )
      return
    }
    const id = ids.has(limit.of)
    const species = kinds.has(limit.of)
    const onlyIt = !(id && species) || batch.materials.every((m) => m.species !== limit.of || m.id === limit.of)
    if (id && species && !onlyIt)
      faults.push(
        faultOf(
          `${path}.of`,
          `is ${JSON.stringify(limit.of)}, both a material and a species; allowed: a name that is one of them`,
        ),
      )
    if (!id && !species)
      faults.push(
        faultOf(
          `${path}.of`,
          `is ${JSON.stringify(limit.of)}; allowed: one of ${measures.join(', ')}, the id of a material here, or a species of one`,
        ),
      )
  })
  if (batch.confidencePct !== undefined && batch.limits.some((l) => l.of === 'fat'))
    for (const m of batch.materials)
      if (m.fatSdPct === undefined && m.composition.fatPct > 0)
        faults.push(
          faultOf(
            `${place(m.id)}.fatSdPct`,
            'is missing; a fat limit with confidencePct needs it of every material that holds fat (0 where it is certain)',
          ),
        )
  if (faults.length > 0) throw new InvalidInput(faults)
}

/**
 * Standard deviations a limit keeps the mean away from itself; none but on fat. Each limit holds with the probability asked: one that has a
 * minimum and a maximum gives each side half the risk, so that the fat lies between them with at least that probability.
 */
export function confidenceZ(limit: BlendLimit, confidencePct: number | undefined): number {
  if (confidencePct === undefined || limit.of !== 'fat') return 0
  const bothSides = limit.minPct !== undefined && limit.maxPct !== undefined
  const risk = 1 - confidencePct / 100
  return normalQuantile(1 - (bothSides ? risk / 2 : risk))
}

/** The largest of them in a batch. */
export const largestZ = ({ limits, confidencePct }: Pick<Batch, 'limits' | 'confidencePct'>): number =>
  Math.max(0, ...limits.map((l) => confidenceZ(l, confidencePct)))

/** Coefficients of a limit's measure as lines Σ a·share + constant, in points. A ratio is put against its own limit. */
function linesAt(of: string, materials: readonly BlendMaterial[], limit: number) {
  if (of === 'collagenInProtein') {
    const a = materials.map((m) => (m.composition.collagenPct ?? Number.NaN) - (limit / 100) * m.composition.proteinPct)
    return { lines: [{ a, constant: 0 }], homogeneous: true }
  }
  if (isLinear(of))
    return {
      lines: linesOf(of, materials).map((l) => ({ a: materials.map(l.of), constant: l.constant })),
      homogeneous: false,
    }
  return {
    lines: [{ a: materials.map((m) => (m.id === of || m.species === of ? 100 : 0)), constant: 0 }],
    homogeneous: false,
  }
}

/** One side of a limit as half-spaces on the shares of a batch. */
export function halvesOf(limit: BlendLimit, side: 'min' | 'max', batch: Batch, looseMass: boolean): readonly Half[] {
  const value = (side === 'min' ? limit.minPct : limit.maxPct)!
  const sign = side === 'min' ? -1 : 1
  const { lines, homogeneous } = linesAt(limit.of, batch.materials, value)
  const z = confidenceZ(limit, batch.confidencePct)
  return lines.map(({ a, constant }) => {
    // With a batch that may come out a little off, a limit in percent is of what is made: move it to the left side.
    const shift = homogeneous ? 0 : looseMass ? value - constant : 0
    return {
      coefficients: sign === 1 && shift === 0 ? a : a.map((c) => sign * (c - shift)),
      ...(z > 0 ? { spread: batch.materials.map((m) => z * (m.fatSdPct ?? 0)) } : {}),
      bound: homogeneous || looseMass ? 0 : sign * (value - constant),
      sign,
    }
  })
}

/** A point of a ratio moves its row by a hundredth of what it is a ratio to. */
export const pointOf = (of: string, batch: Batch): Pick<Requirement, 'pointAt'> =>
  of === 'collagenInProtein'
    ? { pointAt: (x) => batch.materials.reduce((s, m, i) => s + x[i]! * m.composition.proteinPct, 0) / 100 }
    : {}

/** Everything asked of one batch, in the order given: limits, then bounds on materials. Availability is asked of all batches at once. */
export function requirementsOf(batch: Batch, index: number, looseMass: boolean): Requirement[] {
  const asked: Requirement[] = []
  for (const limit of batch.limits)
    for (const side of ['min', 'max'] as const) {
      const value = side === 'min' ? limit.minPct : limit.maxPct
      if (value === undefined) continue
      asked.push({
        of: limit.of,
        side,
        value,
        unit: '%',
        batch: index,
        halves: halvesOf(limit, side, batch, looseMass),
      })
    }
  batch.materials.forEach((m, i) => {
    const bound = (side: 'min' | 'max', value: number | undefined) => {
      if (value === undefined || (side === 'min' && value === 0)) return
      const which = side === 'min' ? 'lower' : 'upper'
      asked.push({
        of: m.id,
        side,
        value,
        unit: '%',
        batch: index,
        halves: [],
        bound: { material: i, which, share: value / 100 },
      })
    }
    bound('min', m.minPct)
    bound('max', m.maxPct)
    if (m.wholeUnitsKg !== undefined)
      asked.push({
        of: m.id,
        side: 'whole',
        value: m.wholeUnitsKg,
        unit: 'kg',
        batch: index,
        halves: [],
        bound: { material: i, which: 'integer', share: m.wholeUnitsKg / batch.kg },
      })
  })
  return asked
}
