// Writes the chamber logs and the weighings of the invented kitchen's slow batches: courses computed by heat.cook and dry.course, with a
// logger's and a scale's noise on top. Seeded: the same files every time. `@N` stands for the day N days from the day the kitchen is
// loaded, as in examples/kitchen.json. Run from the root: node scripts/make-slow-logs.ts
import { mkdirSync, writeFileSync } from 'node:fs'
import { course } from '@forcemeat/craft/dry/course'
import { courseInput } from '@forcemeat/craft/dry/course-schema'
import { cook, cookInput } from '@forcemeat/craft/heat/cook'
import { normal, stream } from './noise.ts'

const folder = new URL('../examples/kitchen-logs/', import.meta.url)
const SIMULATED = 'Simulated data with noise, invented kitchen: nothing was fermented or dried for this file'

const pad = (n: number): string => String(n).padStart(2, '0')
/** Day token and clock, some minutes after midnight of day `day`. */
const stamp = (day: number, minute: number): string => {
  const m = Math.round(minute)
  return `@${day + Math.floor(m / 1440)}T${pad(Math.floor(m / 60) % 24)}:${pad(m % 60)}:00Z`
}

type Air = { readonly minute: number; readonly tempC: number; readonly rhPct: number }
type Stage = { readonly hours: number; readonly tempC: number; readonly rhPct: number }

/** Air of a room led through its stages: it follows a new set point in about an hour, and the unit swings it a little. */
function roomAir(stages: readonly Stage[], stepMinutes: number, start: Stage): Air[] {
  const air: Air[] = []
  let [tempC, rhPct, minute] = [start.tempC, start.rhPct, 0]
  for (const s of stages)
    for (let m = 0; m < s.hours * 60; m += stepMinutes) {
      const follow = 1 - Math.exp(-stepMinutes / 60)
      tempC += (s.tempC - tempC) * follow
      rhPct += (s.rhPct - rhPct) * follow
      air.push({
        minute,
        tempC: tempC + 0.3 * Math.sin(minute / 37),
        rhPct: rhPct + 1.2 * Math.sin(minute / 53),
      })
      minute += stepMinutes
    }
  return air
}

function roomFile(
  name: string,
  title: string,
  day: number,
  startMinute: number,
  air: readonly Air[],
  seed: number,
): void {
  const next = stream(seed)
  writeFileSync(
    new URL(name, folder),
    [
      SIMULATED,
      title,
      'Time;Air;Humidity',
      ';°C;%RH',
      ...air.map(
        ({ minute, tempC, rhPct }) =>
          `${stamp(day, startMinute + minute)};${(tempC + normal(next, 0.1)).toFixed(1)};${Math.min(99, rhPct + normal(next, 0.6)).toFixed(1)}`,
      ),
      '',
    ].join('\r\n'),
  )
}

mkdirSync(folder, { recursive: true })

// Slow sausage, 60 mm: two days to ripen, then the drying room. Hung at 14:00 on day -30.
const SLOW_DAY = -30
const HUNG = 14 * 60
const ripening: Stage[] = [
  { hours: 48, tempC: 22, rhPct: 92 },
  { hours: 24, tempC: 18, rhPct: 88 },
]
const drying: Stage[] = [
  { hours: 7 * 24, tempC: 14, rhPct: 86 },
  { hours: 19 * 24 + 16, tempC: 13, rhPct: 80 },
]
roomFile(
  'slow-1021-ripening.csv',
  'Slow sausage, batch SLOW-1021, ripening cabinet',
  SLOW_DAY,
  HUNG,
  roomAir(ripening, 10, { hours: 0, tempC: 14, rhPct: 75 }),
  1021,
)
roomFile(
  'slow-1021-drying.csv',
  'Slow sausage, batch SLOW-1021, drying room',
  SLOW_DAY + 3,
  HUNG,
  roomAir(drying, 60, { hours: 0, tempC: 18, rhPct: 88 }),
  1022,
)

// Semi-dry stick, 21 mm: soured warm for a day, cooked and chilled after it, then three days in the drying room.
const STICK_DAY = -12
const STICK_HUNG = 15 * 60
const SOUR_HOURS = 24
roomFile(
  'stick-0109-souring.csv',
  'Semi-dry stick, batch STICK-0109, smokehouse',
  STICK_DAY,
  STICK_HUNG,
  roomAir([{ hours: SOUR_HOURS, tempC: 30, rhPct: 88 }], 10, { hours: 0, tempC: 22, rhPct: 70 }),
  109,
)
const stick = { waterPct: 57, proteinPct: 16.5, fatPct: 22, ashPct: 3.5 }
const cooked = cook(
  cookInput.parse({
    diameterMm: 21,
    composition: stick,
    startC: 29,
    stages: [
      { medium: 'air', tempC: 52, wetBulbC: 40, airSpeedMPerS: 2, minutes: 30 },
      { medium: 'air', tempC: 66, wetBulbC: 52, airSpeedMPerS: 2, minutes: 40 },
      { medium: 'air', tempC: 80, wetBulbC: 75, airSpeedMPerS: 2, untilCoreC: 71.6, minutes: 240 },
      { medium: 'water', tempC: 12, filmWPerM2K: 150, minutes: 15 },
      { medium: 'air', tempC: 1.5, rhPct: 85, airSpeedMPerS: 2, minutes: 150 },
    ],
  }),
)
{
  const next = stream(110)
  const { series, minutesTotal } = cooked
  const rows: string[] = []
  let i = 0
  for (let minute = 0; minute <= minutesTotal; minute += 1) {
    while (i < series.length - 2 && series[i + 1]!.minute <= minute) i++
    const [a, b] = [series[i]!, series[i + 1] ?? series[i]!]
    const share = b.minute === a.minute ? 0 : (minute - a.minute) / (b.minute - a.minute)
    const core = a.coreC + share * (b.coreC - a.coreC) + normal(next, 0.05)
    const house = a.houseC + share * (b.houseC - a.houseC) + normal(next, 0.4)
    rows.push(`${stamp(STICK_DAY, STICK_HUNG + SOUR_HOURS * 60 + minute)};${core.toFixed(2)};${house.toFixed(2)}`)
  }
  writeFileSync(
    new URL('stick-0109-cook-and-chill.csv', folder),
    [
      SIMULATED,
      'Semi-dry stick, batch STICK-0109, smokehouse and chiller',
      'Time;Core;House',
      ';°C;°C',
      ...rows,
      '',
    ].join('\r\n'),
  )
}
roomFile(
  'stick-0109-drying.csv',
  'Semi-dry stick, batch STICK-0109, drying room',
  STICK_DAY + 2,
  9 * 60,
  roomAir([{ hours: 6 * 24, tempC: 14, rhPct: 76 }], 60, { hours: 0, tempC: 4, rhPct: 80 }),
  111,
)

/** Weights of the marked pieces as a 1 g scale shows them, by the course of the model with a spread between pieces. */
function weighed(
  pieces: readonly number[],
  input: Parameters<typeof courseInput.parse>[0],
  days: readonly number[],
  seed: number,
) {
  const next = stream(seed)
  const { series } = course(courseInput.parse(input))
  const lossAt = (day: number): number => {
    const i = series.findIndex((r) => r.day >= day)
    if (i <= 0) return series[0]!.weightLossPct
    const [a, b] = [series[i - 1]!, series[i]!]
    return a.weightLossPct + ((day - a.day) / (b.day - a.day)) * (b.weightLossPct - a.weightLossPct)
  }
  const own = pieces.map(() => 1 + normal(next, 0.02))
  return days.map((day) => ({
    day,
    grams: pieces.map((g, k) => Math.round(g * (1 - (lossAt(day) * own[k]!) / 100) + normal(next, 0.7))),
  }))
}
const slow = {
  diameterMm: 60,
  composition: { waterPct: 56.5, proteinPct: 16.5, fatPct: 23, ashPct: 3.8, saltPct: 2.7 },
  stages: [...ripening, ...drying].map((s) => ({ days: s.hours / 24, tempC: s.tempC, rhPct: s.rhPct })),
  target: { weightLossPct: 36, aw: 0.9 },
}
console.log('SLOW-1021', JSON.stringify(weighed([1012, 987, 1034], slow, [0, 3, 7, 14, 21, 28], 7)))
const thin = {
  diameterMm: 19,
  composition: { waterPct: 50, proteinPct: 19, fatPct: 25, ashPct: 4, saltPct: 2.6 },
  stages: [{ days: 6, tempC: 14, rhPct: 76 }],
  target: { weightLossPct: 18 },
}
console.log('STICK-0109', JSON.stringify(weighed([148, 151, 146], thin, [0, 2, 4, 6], 8)))
