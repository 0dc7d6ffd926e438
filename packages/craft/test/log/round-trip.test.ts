import * as fc from 'fast-check'
import { expect, it } from 'vitest'
import { celsiusOfF } from '../../src/heat/fahrenheit.ts'
import { createLogReader } from '../../src/log/reader.ts'
import { readLog } from '../../src/log/read.ts'
import { sniff } from '../../src/log/sniff.ts'
import type { Answers } from '../../src/log/format.ts'

const pad = (n: number, w = 2): string => String(n).padStart(w, '0')

/** Stamp of a minute after 2026-11-25 21:40 UTC in a written form. */
function stamp(minute: number, form: string, i: number): string {
  const d = new Date(Date.UTC(2026, 10, 25, 21, 40) + Math.round(minute * 60_000))
  const [Y, M, D, h, m, s] = [
    d.getUTCFullYear(),
    d.getUTCMonth() + 1,
    d.getUTCDate(),
    d.getUTCHours(),
    d.getUTCMinutes(),
    d.getUTCSeconds(),
  ]
  const clock = `${pad(h)}:${pad(m)}:${pad(s)}`
  switch (form) {
    case 'iso':
      return `${Y}-${pad(M)}-${pad(D)}T${clock}`
    case 'iso-z':
      return `${Y}-${pad(M)}-${pad(D)}T${clock}Z`
    case 'iso-offset':
      return `${Y}-${pad(M)}-${pad(D)} ${clock}+02:00`
    case 'dmy':
      return `${pad(D)}.${pad(M)}.${Y} ${clock}`
    case 'mdy':
      return `${M}/${D}/${Y} ${h % 12 || 12}:${pad(m)}:${pad(s)} ${h < 12 ? 'AM' : 'PM'}`
    case 'epoch':
      return String(d.getTime() / 1000)
    case 'clock':
      return clock
    case 'elapsed':
      return `${pad(Math.floor(minute / 60))}:${pad(Math.floor(minute) % 60)}:${pad(Math.round(minute * 60) % 60)}`
    default:
      return String(i)
  }
}

const text = (value: number, digits: number, decimal: string): string => value.toFixed(digits).replace('.', decimal)

const file = fc.record({
  form: fc.constantFrom('iso', 'iso-z', 'iso-offset', 'dmy', 'mdy', 'epoch', 'clock', 'elapsed'),
  stepSeconds: fc.constantFrom(1, 10, 60, 300),
  delimiter: fc.constantFrom(';', '\t', ',', '|'),
  comma: fc.boolean(),
  quoted: fc.boolean(),
  unit: fc.constantFrom('C', 'F'),
  unitsRow: fc.boolean(),
  preamble: fc.boolean(),
  newline: fc.constantFrom('\n', '\r\n'),
  encoding: fc.constantFrom('utf-8', 'bom', 'latin1', 'utf-16le', 'utf-16be'),
  lastNewline: fc.boolean(),
  digits: fc.constantFrom(1, 2, 3),
  rows: fc.array(
    fc.tuple(
      fc.integer({ min: -20_000, max: 90_000 }),
      fc.integer({ min: 0, max: 90_000 }),
      fc.integer({ min: 0, max: 9 }),
    ),
    { minLength: 4, maxLength: 40 },
  ),
})

type File = typeof file extends fc.Arbitrary<infer T> ? T : never

const gone = ['', '---', 'OPEN', 'Err', '-999', 'NaN', '9999']

function write(f: File): { text: string; minutes: number[]; values: (number | null)[][] } {
  // A decimal comma in a comma file is only told apart by quotes.
  const decimal = f.comma && (f.delimiter !== ',' || f.quoted) ? ',' : '.'
  const q = (s: string): string => (f.quoted ? `"${s}"` : s)
  const lines: string[] = []
  if (f.preamble) lines.push('Logger, model 12', `Serial${f.delimiter}004512`, '')
  const deg = `°${f.unit}`
  const names = f.unitsRow ? ['Time', 'Core 1', 'House'] : ['Time', `Core 1 (${deg})`, `House [${deg}]`]
  lines.push(names.map(q).join(f.delimiter))
  if (f.unitsRow) lines.push(['', deg, deg].map(q).join(f.delimiter))
  const minutes: number[] = []
  const values: (number | null)[][] = []
  for (const [i, [a, b, miss]] of f.rows.entries()) {
    const minute = (i * f.stepSeconds) / 60
    minutes.push(minute)
    const cells = [a, b].map((v, k) =>
      miss === 0 && k === 0 && i > 1 ? gone[(a + 20_000) % gone.length]! : text(v / 1000, f.digits, decimal),
    )
    values.push(
      cells.map((c) => {
        if (gone.includes(c)) return null
        const n = Number(c.replace(',', '.'))
        return f.unit === 'F' ? celsiusOfF(n) : n
      }),
    )
    lines.push([stamp(minute, f.form, i), ...cells].map(q).join(f.delimiter))
  }
  return { text: lines.join(f.newline) + (f.lastNewline ? f.newline : ''), minutes, values }
}

function encode(s: string, encoding: string): Uint8Array {
  if (encoding === 'bom') return new TextEncoder().encode(`\uFEFF${s}`)
  if (encoding === 'latin1') return Uint8Array.from(s, (c) => c.charCodeAt(0))
  if (encoding === 'utf-8') return new TextEncoder().encode(s)
  const out = new Uint8Array(2 * s.length + 2)
  const view = new DataView(out.buffer)
  const little = encoding === 'utf-16le'
  view.setUint16(0, 0xfeff, little)
  for (let i = 0; i < s.length; i++) view.setUint16(2 + 2 * i, s.charCodeAt(i), little)
  return out
}

it('whatever way a logger writes its file, the same minutes and temperatures are read back', () => {
  fc.assert(
    fc.property(file, (f) => {
      const { text, minutes, values } = write(f)
      const read = readLog(encode(text, f.encoding))
      expect(read.questions).toEqual([])
      expect(read.channels.map((c) => [c.role, c.unit])).toEqual([
        ['core', f.unit],
        ['house', f.unit],
      ])
      for (const k of [0, 1]) {
        const series = read.channels[k]!.series
        expect(series.map((p) => p.tempC)).toEqual(values.map((v) => v[k]))
        for (const [i, p] of series.entries()) expect(p.minute).toBeCloseTo(minutes[i]!, 9)
      }
    }),
    { numRuns: 400 },
  )
})

it('however a file is cut into chunks, the rows are the same', () => {
  fc.assert(
    fc.property(file, fc.array(fc.integer({ min: 1, max: 90 }), { minLength: 1, maxLength: 30 }), (f, sizes) => {
      const bytes = encode(write(f).text, f.encoding)
      const { format } = sniff(bytes)
      const run = (chunks: Uint8Array[]): string[] => {
        const rows: string[] = []
        const answers: Answers = {}
        const reader = createLogReader(
          format!,
          {
            row: (m, v, r) => void rows.push(`${r} ${m} ${[...v].join(' ')}`),
            anomaly: (k, r) => void rows.push(`${k} ${r}`),
          },
          answers,
        )
        for (const c of chunks) reader.feed(c)
        reader.end()
        return rows
      }
      const chunks: Uint8Array[] = []
      for (let at = 0, i = 0; at < bytes.length; i++) {
        const size = sizes[i % sizes.length]!
        chunks.push(bytes.slice(at, at + size))
        at += size
      }
      expect(run(chunks)).toEqual(run([bytes]))
    }),
    { numRuns: 200 },
  )
})

it('reads figures as programs print them, to seventeen digits and more, and leaves none out', () => {
  const printed = ['12.017547387526747', '-0.30000000000000004', '71.10000000000001', '0.1234567890123456789012345']
  const text = ['time,Core °C', ...printed.map((v, i) => `2026-03-02T08:0${i}:00Z,${v}`)].join('\n')
  const { channels, anomalies } = readLog(new TextEncoder().encode(text), { roles: { 'Core °C': 'core' } })
  const read = channels[0]!.series.map((r) => r.tempC!)
  expect(anomalies.counts).toEqual({})
  for (const [i, v] of printed.entries()) expect(Math.abs(read[i]! - Number(v))).toBeLessThan(1e-13)
})
