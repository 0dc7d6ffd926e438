// Writes the logger files of the invented kitchen: cooks and chills computed by heat.cook, with a logger's noise on top. Seeded:
// the same files every time. Run from the root: node scripts/make-logs.ts
import { mkdirSync, writeFileSync } from 'node:fs'
import { cook, cookInput, type CookInput } from '@forcemeat/craft/heat/cook'
import { normal as noise, stream } from './noise.ts'

const folder = new URL('../examples/logs/', import.meta.url)
const kitchenFolder = new URL('../examples/kitchen-logs/', import.meta.url)

type Course = { readonly minute: number; readonly coreC: number; readonly houseC: number }[]

const ring = { waterPct: 60, proteinPct: 15, fatPct: 21, ashPct: 3.2 }

/** The course of a piece through its stages, a reading every `stepMinutes`, on straight lines between the computed instants. */
function courseOf(
  stages: CookInput['stages'],
  options: { diameterMm: number; startC: number; stepMinutes: number },
): Course {
  const { diameterMm, startC, stepMinutes } = options
  const { series, minutesTotal } = cook(cookInput.parse({ diameterMm, composition: ring, startC, stages }))
  const course: Course = []
  let i = 0
  for (let minute = 0; minute <= minutesTotal; minute += stepMinutes) {
    while (i < series.length - 2 && series[i + 1]!.minute <= minute) i++
    const [a, b] = [series[i]!, series[i + 1] ?? series[i]!]
    const share = b.minute === a.minute ? 0 : (minute - a.minute) / (b.minute - a.minute)
    course.push({
      minute,
      coreC: a.coreC + share * (b.coreC - a.coreC),
      houseC: a.houseC + share * (b.houseC - a.houseC),
    })
  }
  return course
}

const smoke: CookInput['stages'] = [
  { medium: 'air', tempC: 55, wetBulbC: 38, airSpeedMPerS: 2, minutes: 30 },
  { medium: 'air', tempC: 66, wetBulbC: 48, airSpeedMPerS: 2, minutes: 50 },
  { medium: 'air', tempC: 80, wetBulbC: 75, airSpeedMPerS: 2, untilCoreC: 71.5, minutes: 240 },
]
const goodChill: CookInput['stages'] = [
  { medium: 'water', tempC: 14, filmWPerM2K: 150, minutes: 15 },
  { medium: 'air', tempC: 1.5, rhPct: 85, airSpeedMPerS: 2, minutes: 180 },
]
// The chiller stood still overnight and was found in the morning.
const slowChill: CookInput['stages'] = [
  { medium: 'air', tempC: 36, rhPct: 60, airSpeedMPerS: 0.2, minutes: 420 },
  { medium: 'air', tempC: 3, rhPct: 85, airSpeedMPerS: 1, minutes: 300 },
]

const pad = (n: number): string => String(n).padStart(2, '0')

const SIMULATED = 'Simulated data with noise, invented kitchen: no sausage was cooked for this file'

function write(name: string, lines: string[], where: URL = folder): void {
  writeFileSync(new URL(name, where), `${lines.join('\r\n')}\r\n`)
}

/** Clock on a November day, hh:mm:ss, some minutes after its start. */
const clock = (startHour: number, minute: number): { day: number; text: string } => {
  const s = Math.round((startHour * 60 + minute) * 60)
  return {
    day: Math.floor(s / 86_400),
    text: `${pad(Math.floor(s / 3600) % 24)}:${pad(Math.floor(s / 60) % 60)}:${pad(s % 60)}`,
  }
}

type Told = { readonly day: number; readonly seed: number; readonly title: string; readonly daysAgo?: number }

/** A log on its days of November; where it is of a batch of the kitchen, the same on that batch's days, counted from the day it is loaded. */
function celsiusFile(name: string, course: Course, { day, seed, title, daysAgo }: Told): void {
  write(
    name,
    celsiusLines(course, seed, title, (d) => `2026-11-${pad(day + d)}`),
  )
  if (daysAgo === undefined) return
  write(
    name,
    celsiusLines(course, seed, title, (d) => `@${d - daysAgo}`),
    kitchenFolder,
  )
}

function celsiusLines(course: Course, seed: number, title: string, dayOf: (day: number) => string): string[] {
  const next = stream(seed)
  return [
    SIMULATED,
    title,
    'Time;Core;House',
    ';°C;°C',
    ...course.map(({ minute, coreC, houseC }) => {
      const at = clock(9.25, minute)
      return `${dayOf(at.day)} ${at.text};${(coreC + noise(next, 0.05)).toFixed(2)};${(houseC + noise(next, 0.4)).toFixed(2)}`
    }),
  ]
}

const fahrenheit = (c: number): number => (c * 9) / 5 + 32

mkdirSync(folder, { recursive: true })
const piece = { diameterMm: 34, startC: 9, stepMinutes: 1 }
const good = courseOf([...smoke, ...goodChill], piece)
celsiusFile('ring-0117-cook-and-chill.csv', good, {
  day: 18,
  daysAgo: 7,
  seed: 117,
  title: 'Smoked ring, batch RING-0117, smokehouse and chiller',
})
const slow = courseOf([...smoke, ...slowChill], piece)
celsiusFile('ring-0118-slow-chill.csv', slow, {
  day: 20,
  daysAgo: 5,
  seed: 118,
  title: 'Smoked ring, batch RING-0118, smokehouse and chiller',
})

// Three probes in a thicker piece, the third in the cold corner; a logger set to °F that writes decimal commas.
const thick = [9, 9.4, 8.6].map((startC, k) =>
  courseOf([...smoke, ...goodChill.map((s) => ({ ...s, minutes: s.minutes! * 2 }))], {
    diameterMm: 52 + 3 * k,
    startC,
    stepMinutes: 0.5,
  }),
)
const next = stream(52)
const rows = Math.min(...thick.map((c) => c.length))
write('three-probes-fahrenheit.csv', [
  SIMULATED,
  'Smoked ring, wide casing, smokehouse and chiller',
  'Date;Clock;Core 1;Core 2;Core 3;House',
  ';hh:mm:ss;°F;°F;°F;°F',
  ...Array.from({ length: rows }, (_, i) => {
    const at = clock(8, i / 2)
    const temps = [...thick.map((c) => c[i]!.coreC + noise(next, 0.05)), thick[0]![i]!.houseC + noise(next, 0.4)]
    return [
      `${pad(23 + at.day)}.11.2026`,
      at.text,
      ...temps.map((c) => fahrenheit(c).toFixed(1).replace('.', ',')),
    ].join(';')
  }),
])

// The probe slips out while the chill has the core in the middle of its way, and is found an hour later.
const loose = good.map((r, i) => {
  const chillFrom = good.findLastIndex((p) => p.coreC >= 50)
  return i > chillFrom + 4 && i < chillFrom + 64
    ? { ...r, coreC: 2.1 + 14 * Math.exp(-(i - chillFrom - 5) / 1.2) * 0.1 }
    : r
})
celsiusFile('probe-fell-out.csv', loose, {
  day: 24,
  seed: 119,
  title: 'Smoked ring, smokehouse and chiller; the core probe slipped out of the meat',
})
