// Writes the logs of a fermentation and of a freezing of pork that docs/cli.md judges: courses of the air and of the centre with a logger's
// noise on top. Seeded: the same files every time. Run from the root: node scripts/make-judge-logs.ts
import { mkdirSync, writeFileSync } from 'node:fs'
import { normal, stream } from './noise.ts'

const folder = new URL('../examples/logs/', import.meta.url)
const SIMULATED = 'Simulated data with noise, invented kitchen: nothing was fermented or frozen for this file'
const STEP_MINUTES = 10

/** The clock of a logger some minutes after an instant. */
const stamp = (start: string, minute: number): string =>
  new Date(Date.parse(start) + minute * 60_000).toISOString().slice(0, 16).replace('T', ' ')

function write(name: string, lines: readonly string[]): void {
  writeFileSync(new URL(name, folder), `${lines.join('\r\n')}\r\n`)
}

const minutesOf = (hours: number): number[] =>
  Array.from({ length: (hours * 60) / STEP_MINUTES + 1 }, (_, i) => i * STEP_MINUTES)

/** What follows a set point with a time constant, from a value it starts at. */
const towards = (from: number, to: number, hours: number, constantHours: number): number =>
  to + (from - to) * Math.exp(-hours / constantHours)

mkdirSync(folder, { recursive: true })

// Air-dried sausage in the ripening cabinet: two days at 24 °C, then a day at 20 °C.
{
  const next = stream(312)
  const start = '2026-11-04T14:00:00Z'
  const warm = 48
  write('long-0312-ripening.csv', [
    SIMULATED,
    'Air-dried sausage, batch LONG-0312, ripening cabinet',
    'Time;Air;Humidity',
    ';°C;%RH',
    ...minutesOf(72).map((minute) => {
      const h = minute / 60
      const air = h < warm ? towards(16, 24, h, 1) : towards(24, 20, h - warm, 1)
      const rh = h < warm ? towards(78, 92, h, 1) : towards(92, 88, h - warm, 1)
      const swing = Math.sin(minute / 37)
      const tempC = air + 0.3 * swing + normal(next, 0.1)
      return `${stamp(start, minute)};${tempC.toFixed(1)};${(rh + swing + normal(next, 0.6)).toFixed(1)}`
    }),
  ])
  write('long-0312-ph.csv', [
    'time;pH',
    ...[
      [1, 5.72],
      [18, 5.58],
      [24, 5.41],
      [36, 5.22],
      [48, 5.05],
    ].map(([hour, ph]) => `${stamp(start, hour! * 60)};${ph!.toFixed(2)}`),
  ])
}

// Pork trim in boxes, 120 mm deep: chilled to its freezing point, a plateau while the water freezes, then down to the room. The room is
// defrosted every eight hours; the centre hardly feels it.
{
  const next = stream(77)
  const [room, point] = [-25, -1.6]
  const [toPoint, frozen] = [7, 26]
  const centre = (h: number): number => {
    if (h < toPoint) return towards(4, point - 0.4, h, 3)
    if (h < frozen) return point - 0.4 * ((h - toPoint) / (frozen - toPoint))
    return towards(point - 0.4, room + 0.6, h - frozen, 7)
  }
  write('trim-0077-freezing.csv', [
    SIMULATED,
    'Pork trim, lot TRIM-0077, box 120 mm deep, freezer room',
    'Time;Centre;Room',
    ';°C;°C',
    ...minutesOf(132).map((minute) => {
      const h = minute / 60
      const defrost = h % 8 < 0.5 && h > 1 ? 5 : 0
      return `${stamp('2026-11-02T16:30:00Z', minute)};${(centre(h) + normal(next, 0.05)).toFixed(2)};${(room + defrost + normal(next, 0.3)).toFixed(2)}`
    }),
  ])
}
