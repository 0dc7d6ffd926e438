import type { InstrumentFacts, JudgedCheck, Touched } from '@forcemeat/ledger'
import { formatNumber } from '@forcemeat/craft/quantity/format'
import { paperDay } from './dates.ts'
import { apart, figure, type System } from './amounts.ts'
import type { Content, DocumentDefinition } from 'pdfmake'
import {
  caution,
  contentWidth,
  factRow,
  heading,
  ink,
  line,
  quiet,
  ruled,
  sheet,
  signatures,
  stop,
  type Frame,
} from './frame.ts'

export type InstrumentPaper = Frame & {
  readonly instrument: InstrumentFacts
  readonly checks: readonly JudgedCheck[]
  readonly doubts: readonly Touched[]
  readonly nameOf: (person: string) => string
}

const th = (text: string, right = false): Content => ({ text, style: 'th', ...(right ? { alignment: 'right' } : {}) })
const td = (text: string, right = false): Content => ({ text, fontSize: 9, ...(right ? { alignment: 'right' } : {}) })
const signed = (x: number): string => `${x > 0 ? '+' : x < 0 ? '−' : ''}${formatNumber(Math.abs(x))}`

const standings: Readonly<Record<InstrumentFacts['standing'], string>> = {
  'in-date': 'in date',
  due: 'due soon',
  overdue: 'overdue',
  'never-checked': 'never checked',
  'out-of-tolerance': 'out of tolerance',
  retired: 'out of use',
}

/** An error is a difference: it turns into °F without the zero of the scale. */
const turnOf = (unit: string, system: System): number => (unit === '°C' && system === 'us' ? 1.8 : 1)

/** Error of each check over time between the two lines of what is allowed. */
function drift(checks: readonly JudgedCheck[], width: number, system: System): Content | undefined {
  const points = checks
    .filter((c) => c.provesNothing === undefined)
    .map((c) => {
      const by = turnOf(c.unit, system)
      return {
        at: Date.parse(c.on),
        error: c.error * by,
        tolerance: c.allowed * by,
        unit: by === 1 ? c.unit : '°F',
      }
    })
  if (points.length < 2) return undefined
  const last = points.at(-1)!
  const [wide, tall, left] = [width, 130, 44]
  const most = Math.max(...points.map((p) => Math.max(Math.abs(p.error), p.tolerance))) * 1.15 || 1
  const [from, to] = [points[0]!.at, last.at]
  const x = (at: number): number => left + ((at - from) / (to - from || 1)) * (wide - left - 8)
  const y = (e: number): number => 8 + ((most - e) / (2 * most)) * (tall - 16)
  const rule = (e: number, colour: string, dash: string): string =>
    `<line x1="${left}" y1="${y(e)}" x2="${wide - 8}" y2="${y(e)}" stroke="${colour}" stroke-width="0.8" stroke-dasharray="${dash}"/><text x="${left - 5}" y="${y(e) + 3}" font-size="8" fill="${quiet}" text-anchor="end">${signed(e)}</text>`
  const way = points.map((p, i) => `${i ? 'L' : 'M'}${x(p.at).toFixed(1)} ${y(p.error).toFixed(1)}`).join('')
  const dots = points
    .map((p) => {
      const off = Math.abs(p.error) > p.tolerance
      return `<circle cx="${x(p.at).toFixed(1)}" cy="${y(p.error).toFixed(1)}" r="${off ? 3.5 : 2}" fill="${off ? '#ffffff' : ink}" stroke="${off ? stop : ink}" stroke-width="1.2"/>`
    })
    .join('')
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="${wide}" height="${tall}" viewBox="0 0 ${wide} ${tall}">${rule(last.tolerance, stop, '4 3')}${rule(0, line, '')}${rule(-last.tolerance, stop, '4 3')}<path d="${way}" fill="none" stroke="${ink}" stroke-width="1"/>${dots}</svg>`
  return {
    stack: [
      { svg, width: wide },
      { text: `Error at each check, ${last.unit}; dashed: the largest error allowed.`, style: 'small' },
    ],
    unbreakable: true,
  }
}

/** The record of one instrument: its checks, how it drifts, and the batches it touched while it may have been wrong. */
export function instrumentRecord(p: InstrumentPaper): DocumentDefinition {
  const i = p.instrument
  const { units } = p.kitchen
  const turn = (c: JudgedCheck): number => turnOf(c.unit, units)
  const checks = p.checks.toSorted((a, b) => a.on.localeCompare(b.on) || a.root - b.root)
  const touched = p.doubts.filter((d) => d.batches.length > 0)
  const open = touched.some((d) => d.batches.some((b) => b.settled === undefined))
  const tolerance =
    i.toleranceC === undefined
      ? i.toleranceG === undefined
        ? '–'
        : `± ${i.toleranceG} g`
      : `± ${apart(i.toleranceC, '°C', units)}`
  const plot = drift(checks, contentWidth(p.size), units)
  const content: Content[] = [
    { text: i.name, style: 'title' },
    factRow([
      ['Code', i.instrument],
      ['Kind', i.type],
      ['Largest error allowed', tolerance],
      ['Checked every', `${i.checkEveryDays} days`],
      ['Standing', `${standings[i.standing]}${i.nextDue ? `, next ${paperDay(i.nextDue)}` : ''}`],
    ]),
    ...(open
      ? [
          { text: '', margin: [0, 4, 0, 0] } as Content,
          caution(
            'Batches in doubt',
            'This instrument was found out of tolerance. Batches it touched since its last good check, not yet dealt with, cannot be told safe by its readings.',
          ),
        ]
      : []),
    heading('Checks'),
    ...(checks.length === 0
      ? [{ text: 'None recorded.' }]
      : [
          ...(plot ? [plot] : []),
          {
            table: {
              headerRows: 1,
              widths: ['auto', '*', 'auto', 'auto', 'auto', 'auto', 'auto', '*'],
              body: [
                [
                  th('On'),
                  th('How'),
                  th('Reference', true),
                  th('Reading', true),
                  th('Error', true),
                  th('Allowed', true),
                  th(''),
                  th('By, entry'),
                ],
                ...checks.map((c) => {
                  const good = c.withinTolerance
                  return [
                    td(paperDay(c.on)),
                    td(
                      `${c.method.replace('-', ' ')}${c.note ? `: ${c.note}` : ''}${c.provesNothing ? `. A check that proves nothing: ${c.provesNothing}` : ''}`,
                    ),
                    td(figure(c.reference, c.unit, units), true),
                    td(figure(c.reading, c.unit, units), true),
                    td(signed(turn(c) * c.error), true),
                    td(`± ${formatNumber(turn(c) * c.allowed)}`, true),
                    {
                      text: good ? 'good' : c.provesNothing ? 'NOTHING' : 'OUT',
                      fontSize: 9,
                      bold: !good,
                      color: good ? ink : stop,
                    },
                    td(`${p.nameOf(c.by)}, ${c.seq}`),
                  ]
                }),
              ],
            },
            layout: ruled,
          } as Content,
        ]),
    ...touched.flatMap((d): Content[] => [
      heading(
        `Found ${d.error > 0 ? '+' : ''}${apart(d.error, d.unit, units)} off on ${paperDay(d.found)}; ${d.since ? `last good ${paperDay(d.since)}` : 'never found good before'}`,
      ),
      {
        table: {
          headerRows: 1,
          widths: ['auto', 'auto', 'auto', '*'],
          body: [
            [th('Batch'), th('Made'), th('State'), th('What became of it')],
            ...d.batches.map((b) => [
              td(b.batch),
              td(paperDay(b.on)),
              td(b.state),
              td(
                b.settled
                  ? `${b.settled.outcome === 'stands' ? 'Its readings stand' : 'Not relied on'}: ${b.settled.because} (${p.nameOf(b.settled.by)}, entry ${b.settled.seq})`
                  : 'NOT DEALT WITH',
              ),
            ]),
          ],
        },
        layout: ruled,
      },
    ]),
    signatures(['Seen by, date'], contentWidth(p.size)),
  ]
  return sheet(p, 'Instrument record', content)
}
