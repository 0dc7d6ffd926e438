import type { Finding, Verdict } from '@forcemeat/craft/finding'
import type { Content, DocumentDefinition } from 'pdfmake'
import { paperDay, paperInstant } from './dates.ts'
import { temperature } from './amounts.ts'
import { batchHead, verdictRow, type OfBatch } from './batch-head.ts'
import { curveSvg, type PaperPlot } from './curve-svg.ts'
import { findingsTable, meaning, th } from './findings-table.ts'
import { contentWidth, heading, ruled, sheet, signatures, stop } from './frame.ts'
import { decided, instruments, type PaperDecision, type PaperInstrument } from './signed-off.ts'

export type PaperReading = {
  readonly minute: number
  readonly at?: string
  readonly values: readonly (number | null)[]
}

export type RecordedCurve = {
  readonly fileName: string
  readonly sha256: string
  readonly recordedBy: string
  readonly recordedAt: string
  readonly plot: PaperPlot
  readonly columns: readonly string[]
  readonly readings: readonly PaperReading[]
  /** What was odd about the file, in words. */
  readonly remarks: readonly string[]
}

export type CookAndChill = OfBatch & {
  readonly curves: readonly RecordedCurve[]
  readonly findings: readonly Finding[]
  readonly verdict: Verdict
  readonly instruments: readonly PaperInstrument[]
  readonly decision?: PaperDecision
}

function curve(c: RecordedCurve, r: CookAndChill, width: number): Content[] {
  const svg = curveSvg(c.plot, r.kitchen.units, width, 250)
  return [
    heading(`Curve: ${c.fileName}`),
    svg === '' ? { text: 'The file holds no reading that can be drawn.', color: stop } : { svg, width },
    {
      text: `Recorded by ${c.recordedBy}, ${paperInstant(c.recordedAt)}. File kept byte for byte, SHA-256 ${c.sha256}.`,
      style: 'small',
      margin: [0, 4, 0, 0],
    },
    ...(c.remarks.length > 0 ? [{ ul: c.remarks.map((t) => ({ text: t, fontSize: 9.5 })), margin: [0, 3, 0, 0] }] : []),
  ]
}

function readings(c: RecordedCurve, r: CookAndChill): Content[] {
  if (c.readings.length === 0) return []
  const clock = (m: number): string => `${Math.floor(m / 60)}:${String(Math.floor(m % 60)).padStart(2, '0')}`
  const one = (p: PaperReading): Content[] => [
    { text: clock(p.minute), alignment: 'right' },
    ...p.values.map((v) => ({ text: v === null ? 'no reading' : temperature(v, r.kitchen.units), alignment: 'right' })),
  ]
  // Made for each table: the printer writes positions into what it is given.
  const head = () => [th('h:min', 'right'), ...c.columns.map((n) => th(n, 'right'))]
  const table = (rows: readonly PaperReading[]): Content => ({
    width: '*',
    table: { headerRows: 1, widths: [34, ...c.columns.map(() => '*')], body: [head(), ...rows.map(one)] },
    layout: { ...ruled, paddingTop: () => 1.5, paddingBottom: () => 1.5 },
    fontSize: 9,
  })
  const half = Math.ceil(c.readings.length / 2)
  const parts: Content[] = [
    heading(`Readings: ${c.fileName}`),
    {
      text: 'Some of the readings, at even steps, with each highest and lowest; the file holds all of them.',
      style: 'small',
      margin: [0, 0, 0, 3],
    },
    c.columns.length <= 3 && c.readings.length > 16
      ? {
          columns: [table(c.readings.slice(0, half)), table(c.readings.slice(half))],
          columnGap: 24,
        }
      : table(c.readings),
  ]
  return c.readings.length <= 64 ? [{ stack: parts, unbreakable: true }] : parts
}

/** The record an inspector asks for: the curve as measured, each rule with what was measured, and who decided what. */
export function cookAndChill(r: CookAndChill): DocumentDefinition {
  const width = contentWidth(r.size)
  return sheet(r, 'Cook and chill record', [
    ...batchHead(r),
    verdictRow(r.verdict, meaning[r.verdict]),
    ...(r.decision
      ? [
          {
            text: `${r.decision.decision === 'release' ? 'Released' : 'Held'} by ${r.decision.by}, ${paperDay(r.decision.at)}: ${r.decision.reasons.join('; ')}`,
            bold: true,
            margin: [0, 4, 0, 0],
          },
        ]
      : []),
    ...r.curves.flatMap((c) => curve(c, r, width)),
    ...(r.curves.length === 0
      ? [heading('Curve'), { text: 'No logger file is recorded for this batch.', bold: true, color: stop }]
      : []),
    heading('Findings'),
    ...findingsTable(r.findings, r.kitchen.units),
    ...instruments(r.instruments),
    ...r.curves.flatMap((c) => readings(c, r)),
    {
      unbreakable: true,
      stack: [
        ...decided(r.decision),
        {
          text: 'Findings are computed from the recorded facts and the rules named beside them. Local codes and a qualified person come first.',
          style: 'small',
          margin: [0, 8, 0, 0],
        },
        signatures(['Cook', 'Checked by', 'Date and time'], width),
      ],
    },
  ])
}
