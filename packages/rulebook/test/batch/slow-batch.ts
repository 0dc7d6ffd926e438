import type { BatchFacts, BatchInstrument } from '../../src/batch/facts.ts'
import type { AirChannel, BatchMeasure, InstrumentCheck, LotTreatment } from '../../src/batch/slow-facts.ts'

/** A fermented and dried batch of an invented kitchen in which nothing is missing; each test takes one thing away. */

const every = { checkEveryDays: 30, standing: 'in-date' as const }
export const instruments: readonly BatchInstrument[] = [
  { instrument: 'S1', name: 'floor scale', readabilityG: 5, toleranceG: 5, ...every },
  { instrument: 'S2', name: 'cure scale', readabilityG: 0.1, toleranceG: 0.1, ...every },
  { instrument: 'T1', name: 'chamber logger', toleranceC: 0.3, ...every },
  { instrument: 'T2', name: 'freezer thermometer', toleranceC: 0.5, ...every },
  { instrument: 'PH', name: 'pH meter', ...every, checkEveryDays: 1 },
  { instrument: 'AW', name: 'water activity meter', ...every, checkEveryDays: 1 },
]

const good = (
  instrument: string,
  on: string,
  method: string,
  tolerance: number,
  unit: string,
  reference?: number,
): InstrumentCheck => ({
  instrument,
  on,
  method,
  good: true,
  unit,
  tolerance,
  ...(reference === undefined ? {} : { reference }),
})
/** A pH meter set against two buffers. */
const set = (on: string): InstrumentCheck[] => [4.01, 7].map((buffer) => good('PH', on, 'buffer', 0.02, 'pH', buffer))
export const checks: readonly InstrumentCheck[] = [
  good('S1', '2026-03-01', 'test-load', 5, 'g'),
  good('S2', '2026-03-01', 'test-load', 0.1, 'g'),
  good('T1', '2026-03-01', 'ice-point', 0.3, '°C'),
  good('T2', '2026-02-01', 'ice-point', 0.5, '°C'),
  ...set('2026-03-02'),
  ...set('2026-03-03'),
  good('AW', '2026-03-25', 'salt-standard', 0.005, 'aw', 0.753),
  ...set('2026-03-25'),
]

const ph = (taken: string, value: number, step = 'ferment'): BatchMeasure => ({
  step,
  what: 'ph',
  value,
  taken,
  instrument: 'PH',
})
const weight = (piece: string, taken: string, value: number): BatchMeasure => ({
  step: 'dry',
  what: 'weight',
  unit: 'g',
  piece,
  value,
  taken,
  instrument: 'S2',
})
export const measures: readonly BatchMeasure[] = [
  ph('2026-03-02T08:30:00Z', 5.8),
  ph('2026-03-03T04:00:00Z', 5.5),
  ph('2026-03-03T12:00:00Z', 5.1),
  ph('2026-03-25T12:00:00Z', 5.15, 'dry'),
  { step: 'dry', what: 'aw', value: 0.9, taken: '2026-03-25T12:00:00Z', instrument: 'AW' },
  ...(['P1', 'P2', 'P3'] as const).flatMap((p, i) => [
    weight(p, '2026-03-02T08:00:00Z', 500),
    weight(p, '2026-03-25T12:00:00Z', 320 - i),
  ]),
]

const lines = [
  { line: '1', material: 'pork-shoulder-trim', targetKg: 14, scale: 'S1', lot: 'L1' },
  { line: '2', material: 'pork-back-fat', targetKg: 6, scale: 'S1', lot: 'L2' },
  { line: '3', material: 'salt', targetKg: 0.54, scale: 'S2' },
  { line: '4', material: 'curing-salt-6.25-nitrite', targetKg: 0.04, scale: 'S2' },
]

/** Thickness 150 mm at −24 °C for eleven days: inside group 1 of the former 9 CFR 318.10, Table 1. */
export const frozen = (lot: string, over: Partial<LotTreatment> = {}): LotTreatment => ({
  seq: lot === 'L1' ? 21 : 22,
  lot,
  way: 'frozen-room',
  on: '2026-02-24',
  thicknessMm: 150,
  roomC: -24,
  from: '2026-02-13T00:00:00Z',
  until: '2026-02-24T00:00:00Z',
  instrument: 'T2',
  ...over,
})

export const slow = (change: Partial<BatchFacts> = {}): BatchFacts => ({
  batch: 'B1',
  on: '2026-03-02',
  meatKg: 20,
  jurisdictions: ['US'],
  recipeBody: {
    name: 'Slow stick',
    kind: 'fermented',
    smoked: true,
    readyToEat: true,
    route: 'comminuted',
    meat: [
      { material: 'pork-shoulder-trim', pct: 70 },
      { material: 'pork-back-fat', pct: 30 },
    ],
    additions: [
      { material: 'salt', pct: 2.7 },
      { material: 'curing-salt-6.25-nitrite', pct: 0.2 },
    ],
    casing: { calibreMm: 40 },
    ferment: { targetPh: 5.2 },
    dry: { lossPct: 35, targetAw: 0.91 },
  },
  lines,
  weighings: lines.map((l) => ({ line: l.line, kg: l.targetKg, instrument: l.scale })),
  lots: [
    { lot: 'L1', material: 'pork-shoulder-trim', on: '2026-02-10' },
    { lot: 'L2', material: 'pork-back-fat', on: '2026-02-10' },
  ],
  instruments,
  checks,
  measures,
  treatments: [frozen('L1'), frozen('L2')],
  curves: [
    { seq: 11, purpose: 'ferment', channels: [{ column: 'air', role: 'house', instrument: 'T1' }] },
    { seq: 12, purpose: 'dry', channels: [{ column: 'air', role: 'house', instrument: 'T1' }] },
  ],
  ...change,
})

const readings = (hours: number, tempC: (hour: number) => number | null): AirChannel['readings'] =>
  Array.from({ length: 2 * hours + 1 }, (_, i) => ({ minute: i * 30, value: tempC(i / 2) }))

export const epoch = (instant: string): number => Date.parse(instant) / 1000

/** 48 h of fermentation from 08:00, a reading each half hour. */
export const fermented = (
  tempC: (hour: number) => number | null = () => 24,
  over: Partial<AirChannel> = {},
): AirChannel => ({
  seq: 11,
  column: 'air',
  role: 'house',
  readings: readings(48, tempC),
  starts: { at: epoch('2026-03-02T08:00:00Z'), zone: 'said' },
  ...over,
})
export const dried: AirChannel = {
  seq: 12,
  column: 'air',
  role: 'house',
  readings: readings(24 * 22, () => 14),
  starts: { at: epoch('2026-03-04T08:30:00Z'), zone: 'said' },
}
export const air = [fermented(), dried]
