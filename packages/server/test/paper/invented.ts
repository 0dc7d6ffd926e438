import type { BatchSheet } from '../../src/paper/batch-sheet.ts'
import type { CookAndChill } from '../../src/paper/cook-and-chill.ts'
import type { PaperSize } from '../../src/paper/frame.ts'

/** A kitchen, a recipe and a batch that exist nowhere. */
const frame = (size: PaperSize, units: 'metric' | 'us') => ({
  kitchen: { name: 'Brackwater Smokehouse', place: 'Lower Fenwick', demo: true, units },
  batch: 'B-2026-031',
  head: { seq: 412, hash: 'a3'.repeat(32), at: '2026-11-20T15:04:05.000Z' },
  size,
})

export const inventedSheet = (size: PaperSize, units: 'metric' | 'us' = 'metric'): BatchSheet => ({
  ...frame(size, units),
  recipe: { name: 'Smoked hunter’s link', code: 'HUNTER', version: 4 },
  on: '2026-11-20',
  meatKg: 24,
  jurisdictions: ['US', 'EU'],
  lines: [
    {
      what: 'Pork shoulder trim, 80 % lean',
      lot: 'PS-1107',
      targetKg: 14.4,
      scale: 'BENCH-30',
      readabilityG: 5,
      fit: 'fit',
      cure: false,
      allergens: [],
    },
    {
      what: 'Pork back fat',
      lot: 'BF-1101',
      targetKg: 4.8,
      scale: 'BENCH-30',
      readabilityG: 5,
      fit: 'fit',
      cure: false,
      allergens: [],
    },
    {
      what: 'Beef chuck, 90 % lean',
      lot: 'BC-1109',
      targetKg: 4.8,
      scale: 'BENCH-30',
      readabilityG: 5,
      cure: false,
      allergens: [],
    },
    { what: 'Ice', targetKg: 2.4, scale: 'BENCH-30', readabilityG: 5, cure: false, allergens: [] },
    { what: 'Salt', targetKg: 0.432, scale: 'SPICE-3', readabilityG: 0.1, fit: 'fit', cure: false, allergens: [] },
    {
      what: 'Curing salt, 6.25 % sodium nitrite',
      lot: 'CU-0041',
      targetKg: 0.0576,
      band: { lowKg: 0.05376, highKg: 0.0599 },
      scale: 'BENCH-30',
      readabilityG: 5,
      fit: 'unfit',
      cure: true,
      allergens: [],
    },
    { what: 'Sodium erythorbate', targetKg: 0.0132, scale: 'SPICE-3', readabilityG: 0.1, cure: false, allergens: [] },
    {
      what: 'Mustard seed, cracked',
      lot: 'MS-17',
      targetKg: 0.096,
      scale: 'SPICE-3',
      readabilityG: 0.1,
      cure: false,
      allergens: ['mustard'],
    },
    {
      what: 'Black pepper, ground',
      lot: 'BP-9',
      targetKg: 0.0624,
      scale: 'SPICE-3',
      readabilityG: 0.1,
      cure: false,
      allergens: [],
    },
  ],
  steps: [
    'Chill all meat to −1 to 2 °C; keep it there until the mixer.',
    'Grind lean through 4.5 mm, fat through 8 mm, half frozen.',
    'Mix lean with salt, cure and half the ice until it binds; then fat, spice and the rest. End no warmer than 7 °C.',
    'Stuff without air; link; hang so that no link touches another.',
    'Rest 12 h at 2 to 4 °C before the smokehouse.',
  ],
  casing: { name: 'Hog', calibreMm: 34, linkG: 110, metres: 41.3, links: 245 },
  cook: {
    targetCoreC: 71.1,
    holdMinutes: 1,
    stages: [
      { medium: 'air', tempC: 55, rhPct: 35, minutes: 45 },
      { medium: 'smoke, air', tempC: 65, rhPct: 50, minutes: 60 },
      { medium: 'steam', tempC: 78, rhPct: 95, untilCoreC: 71.1 },
    ],
  },
  chill: ['Start within 15 minutes of the end of the cook.', 'Log the core until it is below 4.4 °C.'],
  note: 'Trial of the new plate: keep one link of each rod apart.',
})

const core = (m: number): number => (m < 180 ? 4 + 68 * (1 - Math.exp(-m / 55)) : 4 + 67 * Math.exp(-(m - 180) / 70))
const house = (m: number): number => (m < 45 ? 55 : m < 105 ? 65 : m < 180 ? 78 : 2)
const minutes = Array.from({ length: 131 }, (_, i) => i * 4)

const source = { document: '9 CFR 424.21(c)', section: '(c)', edition: '2026' }

export const inventedRecord = (size: PaperSize, units: 'metric' | 'us' = 'metric'): CookAndChill => ({
  ...frame(size, units),
  recipe: { name: 'Smoked hunter’s link', code: 'HUNTER', version: 4 },
  on: '2026-11-20',
  jurisdictions: ['US', 'EU'],
  verdict: 'fail',
  findings: [
    {
      rule: 'a',
      title: 'Ingoing nitrite, comminuted',
      jurisdiction: 'US',
      verdict: 'pass',
      weight: 'limit',
      measured: 149.8,
      limit: 156,
      unit: 'mg/kg',
      margin: 6.2,
      because: 'The interval from 148.1 to 151.5 mg/kg lies below the limit.',
      source,
      inForce: {},
    },
    {
      rule: 'b',
      title: 'Chilling from 54.4 to 26.7 °C',
      jurisdiction: 'US',
      verdict: 'fail',
      weight: 'limit',
      measured: 96,
      limit: 90,
      unit: 'min',
      margin: -6,
      because: 'It took 1 h 36 min; allowed are at most 1 h 30 min.',
      source,
      inForce: {},
    },
    {
      rule: 'c',
      title: 'Humidity while cooking',
      jurisdiction: 'US',
      verdict: 'cannot-tell',
      weight: 'advice',
      unit: '% RH',
      because: 'No humidity was logged.',
      settle: 'a wet-bulb or humidity channel in the log',
      source,
      inForce: {},
    },
    {
      rule: 'd',
      title: 'Core of 71.1 °C reached',
      jurisdiction: 'US',
      verdict: 'pass',
      weight: 'limit',
      measured: 71.4,
      limit: 71.1,
      unit: '°C',
      margin: 0.3,
      because: 'Reached at 2 h 56 min.',
      source,
      inForce: {},
    },
  ],
  instruments: [
    {
      code: 'PROBE-1',
      name: 'Core probe, smokehouse',
      type: 'thermometer',
      lastCheck: '2026-11-18, ice point, +0.1 °C',
      due: '2026-11-25',
    },
    { code: 'LOG-1', name: 'Smokehouse logger', type: 'logger' },
  ],
  curves: [
    {
      fileName: 'smokehouse 2026-11-20.csv',
      sha256: '0f'.repeat(32),
      recordedBy: 'ana',
      recordedAt: '2026-11-20T14:58:00.000Z',
      plot: {
        curves: [
          { label: 'House', role: 'house', points: minutes.map((m) => [m, house(m)] as const) },
          {
            label: 'Core 1',
            role: 'core',
            points: minutes.map((m) => [m, m > 300 && m < 312 ? null : core(m)] as const),
          },
        ],
        limits: [
          { label: '71.1 °C cooked', c: 71.1 },
          { label: '54.4 °C', c: 54.4 },
          { label: '26.7 °C', c: 26.7 },
          { label: '4.4 °C', c: 4.4 },
        ],
        chillStart: 180,
      },
      columns: ['Core 1', 'House'],
      readings: minutes
        .filter((_, i) => i % 4 === 0)
        .map((m) => ({ minute: m, values: [m === 304 ? null : core(m), house(m)] })),
      remarks: ['Two readings of Core 1 are missing between 5:00 and 5:12; they are not bridged.'],
    },
  ],
  decision: {
    decision: 'hold',
    reasons: ['Chilled too slowly between 54.4 and 26.7 °C.'],
    by: 'ana',
    at: '2026-11-20T15:03:00.000Z',
    signed: 'b7'.repeat(32),
  },
})
