import type { Finding, Verdict } from '@forcemeat/craft/finding'
import type { DryView } from '../slow/dry-view.ts'
import type { FermentView } from '../slow/ferment-view.ts'
import { formatNumber } from '@forcemeat/craft/quantity/format'
import type { Content, DocumentDefinition } from 'pdfmake'
import { paperDay, paperInstant, paperTime } from './dates.ts'
import { temperature, type System } from './amounts.ts'
import { batchHead, verdictRow, type OfBatch } from './batch-head.ts'
import { daysSvg, type DaysPlot } from './days-svg.ts'
import { findingsTable, meaning, th } from './findings-table.ts'
import { caution, contentWidth, factRow, heading, ruled, sheet, signatures, stop } from './frame.ts'
import { decided, instruments, type PaperDecision, type PaperInstrument } from './signed-off.ts'

export type DryingRecord = OfBatch & {
  readonly ferment: FermentView
  readonly dry: DryView
  /** What the model foretells from the weighings so far; never a proof. */
  readonly forecast?: {
    readonly early: string
    readonly likely: string
    readonly late?: string
    readonly words: string
  }
  readonly findings: readonly Finding[]
  readonly verdict: Verdict
  readonly instruments: readonly PaperInstrument[]
  readonly decision?: PaperDecision
  readonly name: (person: string) => string
}

const number = (v: number, digits = 3): string => formatNumber(v, { digits })
const shownC = (c: number, units: System): number => (units === 'us' ? c * 1.8 + 32 : c)

function plot(p: DaysPlot, width: number, height = 170): Content[] {
  const svg = daysSvg(p, width, height)
  return svg === '' ? [] : [{ svg, width, margin: [0, 4, 0, 2] }]
}

function table(head: readonly string[], widths: readonly (number | string)[], rows: readonly Content[][]): Content {
  return {
    table: {
      headerRows: 1,
      keepWithHeaderRows: 1,
      dontBreakRows: true,
      widths: [...widths],
      body: [head.map((h) => th(h)), ...rows],
    },
    layout: { ...ruled, paddingTop: () => 2, paddingBottom: () => 2 },
    fontSize: 9.5,
  }
}

function fermented(r: DryingRecord, width: number): Content[] {
  const { ferment: f } = r
  const { units } = r.kitchen
  const hours = f.minutes.map((m) => m / 60)
  const began = f.from === undefined ? undefined : Date.parse(f.from)
  const unit = units === 'us' ? '°F' : '°C'
  const count = (s: FermentView['systems'][number]): Content[] => [
    s.jurisdiction,
    `${number(s.degreeHours, 4)} ${s.unit}`,
    `${number(s.limit, 4)} ${s.unit}`,
    temperature(s.highestC, units),
    s.hoursToTarget === undefined ? 'not reached by a proven reading' : `${number(s.hoursToTarget)} h`,
    s.hole ? { text: `hole from ${number(s.hole.from)} to ${number(s.hole.to)} h`, color: stop, bold: true } : 'none',
  ]
  return [
    heading('Fermentation'),
    ...(f.minutes.length === 0
      ? [{ text: 'No log of the chamber is recorded.', bold: true, color: stop } as Content]
      : plot(
          {
            upward: `Chamber ${unit}`,
            along: `hours from ${paperInstant(f.from!)}`,
            lines: [
              {
                label: 'air',
                as: 'line',
                points: f.tempC.map((c, i) => [hours[i]!, c === null ? null : shownC(c, units)]),
              },
            ],
            limits: [],
          },
          width,
          130,
        )),
    ...(began === undefined
      ? []
      : plot(
          {
            upward: 'pH',
            along: 'hours from the start of the log',
            from: 0,
            lines: [
              {
                label: 'pH by hand',
                as: 'dots',
                points: f.readings.map((p) => [(Date.parse(p.taken) - began) / 3_600_000, p.ph]),
              },
            ],
            limits: [
              { label: `counted to ${f.countedToPh}`, value: f.countedToPh },
              ...(f.targetPh === f.countedToPh ? [] : [{ label: `recipe ${f.targetPh}`, value: f.targetPh }]),
            ],
          },
          width,
          130,
        )),
    f.readings.length === 0
      ? { text: 'No pH is recorded.', bold: true, color: stop }
      : table(
          ['Taken (UTC)', 'pH', 'Meter', 'Calibrated that day', 'By'],
          [96, 40, 70, '*', 90],
          f.readings.map((p) => [
            paperTime(p.taken),
            p.ph.toFixed(2),
            p.instrument ?? '–',
            p.calibrated ? p.because : { text: p.because, color: stop, bold: true },
            r.name(p.by),
          ]),
        ),
    ...(f.systems.length === 0
      ? []
      : [
          { text: 'Degree-hours until the pH was reached', bold: true, margin: [0, 8, 0, 2] } as Content,
          table(
            ['Published count', 'Counted', 'Allowed', 'Warmest', `pH ${f.countedToPh} after`, 'Unlogged'],
            [80, 80, 80, 60, '*', 90],
            f.systems.map(count),
          ),
        ]),
    ...notes(f.notes),
  ]
}

const notes = (list: readonly string[]): Content[] =>
  list.length === 0 ? [] : [{ ul: list.map((text) => ({ text, fontSize: 9.5 })), margin: [0, 4, 0, 0] }]

function weights({ dry, name }: DryingRecord): Content[] {
  const pieces = [...new Set(dry.weights.map((w) => w.piece))].slice(0, 8)
  if (pieces.length === 0) return [{ text: 'No marked piece was weighed.', bold: true, color: stop }]
  const starts = new Map(dry.marked.starts.map((s) => [s.piece, s]))
  const rows = dry.weights.map((w): Content[] => {
    const start = starts.get(w.piece)
    return [
      paperTime(w.taken),
      w.day.toFixed(1),
      w.piece,
      `${number(w.g, 5)} g`,
      start && start.counts && w.day > start.day ? `${(100 * (1 - w.g / start.g)).toFixed(1)} %` : 'start',
      w.instrument ?? '–',
      name(w.by),
    ]
  })
  return [table(['Taken (UTC)', 'Day', 'Piece', 'Weight', 'Loss', 'Scale', 'By'], [96, 36, 50, 66, 50, 70, '*'], rows)]
}

function dried(r: DryingRecord, width: number): Content[] {
  const { dry } = r
  const unit = r.kitchen.units === 'us' ? '°F' : '°C'
  const target = dry.target.weightLossPct
  const measured = [
    ...dry.aws.map((m) => ({ ...m, what: 'Water activity', shown: m.value.toFixed(3) })),
    ...dry.moistureToProtein.map((m) => ({ ...m, what: 'Moisture to protein', shown: number(m.value) })),
  ]
  return [
    heading('Drying'),
    factRow([
      ['Day 0', paperInstant(dry.start)],
      ['Counted from', dry.startFrom],
      ['To reach', targets(dry)],
      ...(dry.met.length === 0 ? [] : [['Met as measured', metWords(dry)] as const]),
    ]),
    ...plot(
      {
        upward: 'Loss, % of the start weight',
        along: 'days',
        from: 0,
        lines: [
          {
            label: 'mean of the marked pieces',
            as: 'dots',
            points: dry.marked.losses.map((l) => [l.day, l.weightLossPct]),
          },
        ],
        limits: target === undefined ? [] : [{ label: `to reach ${target} %`, value: target }],
      },
      width,
    ),
    ...weights(r),
    ...plot(
      {
        upward: `Air, ${unit}`,
        along: 'days',
        lines: [
          {
            label: 'air of the room, mean of each hour',
            as: 'line',
            points: dry.log.map((a) => [a.day, a.tempC === null ? null : shownC(a.tempC, r.kitchen.units)]),
          },
        ],
        limits: [],
      },
      width,
      120,
    ),
    ...plot(
      {
        upward: 'Humidity, % RH',
        along: 'days',
        lines: [{ label: 'humidity, mean of each hour', as: 'dashed', points: dry.log.map((a) => [a.day, a.rhPct]) }],
        limits: [],
      },
      width,
      120,
    ),
    ...(dry.log.length === 0 ? [{ text: 'No log of the room is recorded.', bold: true, color: stop } as Content] : []),
    ...(measured.length === 0
      ? [{ text: 'Water activity has not been measured.', bold: true, margin: [0, 4, 0, 0] } as Content]
      : [
          table(
            ['Measured', 'Taken (UTC)', 'Value', 'Instrument', 'By'],
            [110, 96, 60, 80, '*'],
            measured.map((m) => [m.what, paperTime(m.taken), m.shown, m.instrument ?? '–', r.name(m.by)]),
          ),
        ]),
    ...notes(dry.notes),
    ...(r.forecast
      ? [
          caution(
            `Foretold ready: ${paperDay(r.forecast.early)} to ${r.forecast.late === undefined ? 'a day that cannot be told' : paperDay(r.forecast.late)}, likely ${paperDay(r.forecast.likely)}`,
            r.forecast.words,
          ),
        ]
      : []),
  ]
}

const metWords = ({ met, left }: DryView): string =>
  `${met.map((m) => (m.of === 'weightLossPct' ? `${number(m.measured)} % loss` : m.of === 'aw' ? `aw ${m.measured}` : `${number(m.measured)} moisture to protein`)).join(', ')}${Object.keys(left).length === 0 ? ': every target' : ''}`

function targets({ target }: DryView): string {
  const asked = [
    ...(target.weightLossPct === undefined ? [] : [`${target.weightLossPct} % loss`]),
    ...(target.aw === undefined ? [] : [`aw ${target.aw}`]),
    ...(target.moistureToProtein === undefined ? [] : [`${target.moistureToProtein} moisture to protein`]),
  ]
  return asked.length === 0 ? 'the recipe names nothing' : asked.join(', ')
}

/** The record of a fermented and dried batch: the air, the pH, the weights, what was measured at the end, and who decided what. */
export function dryingRecord(r: DryingRecord): DocumentDefinition {
  const width = contentWidth(r.size)
  return sheet(r, 'Drying record', [
    ...batchHead(r),
    verdictRow(r.verdict, meaning[r.verdict]),
    ...fermented(r, width),
    ...dried(r, width),
    heading('Findings'),
    ...findingsTable(r.findings, r.kitchen.units),
    ...instruments(r.instruments),
    {
      unbreakable: true,
      stack: [
        ...decided(r.decision),
        {
          text: 'Findings are computed from the recorded facts and the rules named beside them. A forecast of the model releases nothing. Local codes and a qualified person come first.',
          style: 'small',
          margin: [0, 8, 0, 0],
        },
        signatures(['Ripening', 'Checked by', 'Date and time'], width),
      ],
    },
  ])
}
