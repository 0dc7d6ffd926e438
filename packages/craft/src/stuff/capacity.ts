import { casings, soakAdvice, type Casing, type CasingKind } from './data/casings.ts'

export type Capacity = {
  readonly kgPerM: number
  readonly kgPerMLow: number
  readonly kgPerMHigh: number
  readonly pieceM?: number
  readonly basis: 'given' | 'table' | 'geometry'
  readonly expression: string
  readonly soak?: string
  readonly note: string
  readonly source: string
}

type Asked = {
  readonly calibreMm: number
  readonly kgPerM?: number | undefined
  readonly kind?: CasingKind | undefined
}

/** Density of raw mix, kg/m³: common practice, no source. */
const MIX_DENSITY = 1030
/** Published capacity over full-circle geometry, from 0.45 (hog) to 0.95 (beef rounds and middles): computed from the table. */
const FILL_FACTOR = { low: 0.45, likely: 0.75, high: 0.95 }

/** Capacity of a full circle of the calibre, kg/m: πd²/4 × 1030 kg/m³. */
export const geometricKgPerM = (calibreMm: number): number => (Math.PI / 4) * (calibreMm / 1000) ** 2 * MIX_DENSITY

/** How far an open-ended row is read past its one bound, mm: about the width of the rows beside it. */
const OPEN_MM = (kind: CasingKind): number => (kind === 'sheep' ? 2 : 5)

/** Whether a calibre lies in the row, ends included. */
const holds = (row: Casing, mm: number): boolean =>
  mm >= (row.minMm ?? row.maxMm! - OPEN_MM(row.kind)) && mm <= (row.maxMm ?? row.minMm! + OPEN_MM(row.kind))

/** Rows with a stated capacity for a calibre, of one kind or of all. On a shared edge the smaller calibre's row comes first. */
export const casingsAt = (calibreMm: number, kind?: CasingKind): readonly Casing[] =>
  casings.filter((c) => (kind === undefined || c.kind === kind) && holds(c, calibreMm) && c.kgPerMLow !== undefined)

const mean = (row: Casing): number => ((row.kgPerMLow ?? 0) + (row.kgPerMHigh ?? 0)) / 2

function fromTable(row: Casing, others: readonly Casing[], calibreMm: number): Capacity {
  const [low, high] = [row.kgPerMLow!, row.kgPerMHigh!]
  const rest = [...new Set(others.filter((o) => o.kind !== row.kind).map((o) => o.kind))]
  const choice = rest.length
    ? ` ${calibreMm} mm is also a calibre of ${rest.join(', ')}, which hold more: name the kind of casing for its own figure.`
    : ''
  const practice =
    row.source.mark === 'common-practice' ? ' Retail figures scatter widely: weigh what one piece of yours holds.' : ''
  return {
    kgPerM: (low + high) / 2,
    kgPerMLow: low,
    kgPerMHigh: high,
    ...(row.pieceM !== undefined && { pieceM: row.pieceM }),
    basis: 'table',
    expression: `mean of ${low} and ${high} kg/m, ${row.id}`,
    soak: soakAdvice[row.kind],
    note: `Capacity of ${row.id}, green weight.${choice}${practice}`,
    source: `${row.source.document}; ${row.source.section} (${row.source.mark})`,
  }
}

function fromGeometry(calibreMm: number, kind: CasingKind | undefined): Capacity {
  const full = geometricKgPerM(calibreMm)
  const factor = kind === 'cellulose' ? { low: 0.95, likely: 1, high: 1.05 } : FILL_FACTOR
  return {
    kgPerM: full * factor.likely,
    kgPerMLow: full * factor.low,
    kgPerMHigh: full * factor.high,
    basis: 'geometry',
    expression: `π × (${calibreMm} mm)²/4 × ${MIX_DENSITY} kg/m³ × ${factor.likely}`,
    ...(kind !== undefined && { soak: soakAdvice[kind] }),
    note: 'No published capacity for this calibre and kind: geometry times a fill factor, a wide band. Fill one metre, weigh it, and enter kgPerM.',
    source: 'geometry with an assumed density and fill factor (common practice, no source)',
  }
}

/**
 * What a metre of a casing holds. The kitchen's own figure wins; else the table; where several kinds share the calibre and none
 * is named, the one that holds least, so that the casing laid out is not too short; else geometry.
 */
export function capacityOf(asked: Asked): Capacity {
  const rows = casingsAt(asked.calibreMm, asked.kind)
  const least = rows.reduce<Casing | undefined>((a, b) => (a && mean(a) <= mean(b) ? a : b), undefined)
  if (asked.kgPerM !== undefined) {
    const k = asked.kgPerM
    const kind = asked.kind ?? (new Set(rows.map((r) => r.kind)).size === 1 ? rows[0]!.kind : undefined)
    return {
      kgPerM: k,
      kgPerMLow: k,
      kgPerMHigh: k,
      basis: 'given',
      expression: 'as given',
      ...(kind !== undefined && { soak: soakAdvice[kind] }),
      note:
        k > 1.1 * geometricKgPerM(asked.calibreMm)
          ? `${k} kg/m is more than a full circle of ${asked.calibreMm} mm holds: check calibre and capacity.`
          : 'Capacity as given.',
      source: 'given',
    }
  }
  return least ? fromTable(least, rows, asked.calibreMm) : fromGeometry(asked.calibreMm, asked.kind)
}

/** A casing of the table by id, or undefined. */
export const findCasing = (id: string): Casing | undefined => casings.find((c) => c.id === id)
