import type { BatchRecord, Ledger } from '@forcemeat/ledger'
import type { BatchJudgement } from '@forcemeat/rulebook/batch/judge-batch'
import { readRecorded } from '../curves/recorded.ts'
import { seriesOf } from '../curves/shown.ts'
import { curveView, type CurveView } from '../curves/view.ts'
import { temperature, type System } from './amounts.ts'
import type { PaperReading, RecordedCurve } from './cook-and-chill.ts'
import type { PaperCurve } from './curve-svg.ts'

type Recorded = BatchRecord['curves'][number]

/** Most lines of the table of readings. */
const mostLines = 44
const steps = [1, 2, 5, 10, 15, 20, 30, 60, 120, 180, 360, 720, 1440]

/** Indexes of the readings to print: about every so many minutes, with each channel's highest and lowest. */
function printed(
  minutes: readonly number[],
  channels: readonly { readonly values: readonly (number | null)[] }[],
): number[] {
  if (minutes.length <= mostLines) return minutes.map((_, i) => i)
  const span = minutes.at(-1)! - minutes[0]!
  const step = steps.find((s) => span / s <= mostLines) ?? span / mostLines
  const keep = new Set([0, minutes.length - 1])
  let due = minutes[0]!
  for (const [i, m] of minutes.entries())
    if (m >= due) {
      keep.add(i)
      due = Math.floor(m / step) * step + step
    }
  for (const { values } of channels) {
    const there = values.flatMap((v, i) => (v === null ? [] : [{ v, i }]))
    if (there.length === 0) continue
    keep.add(there.reduce((a, b) => (b.v > a.v ? b : a)).i)
    keep.add(there.reduce((a, b) => (b.v < a.v ? b : a)).i)
  }
  return [...keep].sort((a, b) => a - b)
}

const plotRole = (role: string): PaperCurve['role'] =>
  role === 'core' || role === 'house' || role === 'surface' ? role : 'other'

const anomalyWords: Readonly<Record<string, string>> = {
  'not-a-reading': 'cells that are no reading',
  'no-reading': 'readings missing',
  'out-of-range': 'readings no probe can give',
  'bad-time': 'rows without a time that can be read',
  'repeated-time': 'repeated times',
  'out-of-order': 'rows out of order',
  'clock-back': 'jumps of the clock back by an hour',
  'clock-forward': 'jumps of the clock forward by an hour',
  gap: 'gaps',
  'short-row': 'rows cut short',
}

const remarksOf = (view: CurveView): string[] => [
  ...view.notes,
  ...Object.entries(view.anomalies.counts).map(
    ([kind, n]) => `${n} ${anomalyWords[kind] ?? kind}; nothing is put in their place`,
  ),
  ...view.questions.map((q) => `Not known: ${q.text}`),
]

async function curveOf(
  ledger: Ledger,
  record: BatchRecord,
  curve: Recorded,
  judgement: BatchJudgement,
  name: (code: string) => string,
  system: System,
): Promise<RecordedCurve> {
  const base = { fileName: curve.fileName, sha256: curve.file, recordedBy: name(curve.by), recordedAt: curve.at }
  const [view, read] = await Promise.all([curveView(ledger, record, curve, judgement), readRecorded(ledger, curve)])
  if (!view || !read)
    return {
      ...base,
      plot: { curves: [], limits: [] },
      columns: [],
      readings: [],
      remarks: ['This file is not in the record, or too large to be read whole.'],
    }
  const shown = new Set(view.channels.map((c) => c.column))
  const offsets = new Map(curve.channels.map((c) => [c.column, c.offsetC ?? 0]))
  const whole = seriesOf(read)
  const columns = read.channels
    .flatMap((c, k) => (shown.has(c.name) && k < 64 ? [{ name: c.name, values: whole.channels[k]!.values }] : []))
    .slice(0, 6)
  const at = (values: readonly (number | null)[], i: number, column: string): number | null => {
    const v = values[i]
    return v === null || v === undefined ? null : v + (offsets.get(column) ?? 0)
  }
  const readings = printed(whole.minutes, columns).map((i): PaperReading => ({
    minute: whole.minutes[i]!,
    values: columns.map((c) => at(c.values, i, c.name)),
  }))
  const corrected = curve.channels.flatMap((c) =>
    c.offsetC
      ? [
          `${c.column}: ${c.offsetC > 0 ? '+' : '−'}${Math.abs(c.offsetC)} K added to each reading, from a check of the probe`,
        ]
      : [],
  )
  return {
    ...base,
    plot: {
      curves: view.channels.map((c) => ({
        label: c.column,
        role: plotRole(c.role),
        points: view.minutes.map((m, i) => [m, c.values[i] ?? null] as const),
      })),
      limits: view.limits.map((l) => ({
        label: l.label === 'core target' ? `${temperature(l.c, system)} core target` : temperature(l.c, system),
        c: l.c,
      })),
      ...(view.chillStartMinute === undefined ? {} : { chillStart: view.chillStartMinute }),
    },
    columns: columns.map((c) => c.name),
    readings,
    remarks: [...remarksOf(view), ...corrected],
  }
}

/** The logger files of a batch as the cook-and-chill record prints them. */
export async function curvesOf(
  ledger: Ledger,
  record: BatchRecord,
  judgement: BatchJudgement,
  name: (code: string) => string,
  system: System,
): Promise<RecordedCurve[]> {
  const all: RecordedCurve[] = []
  for (const curve of record.curves) all.push(await curveOf(ledger, record, curve, judgement, name, system))
  return all
}
