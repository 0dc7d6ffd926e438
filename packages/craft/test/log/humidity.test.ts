import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { readLog } from '../../src/log/read.ts'
import { judgeLog } from '../../src/log/judge-log.ts'

const file = (...lines: string[]): string => lines.join('\n')
const humid = (text: string, answers = {}) => {
  const read = readLog(text, answers)
  return {
    asked: read.questions.map((q) => q.about),
    temps: read.channels.map((c) => [c.name, c.role]),
    rh: read.humidity.map((h) => [h.name, h.series.map((p) => p.rhPct)]),
    notes: read.notes.join(' '),
    read,
  }
}

describe('a column of relative humidity', () => {
  it.each(['RH (%)', '%RH', 'Humidity', 'Relative humidity [%]', 'rel. Feuchte %', 'RH_1', 'HR %', 'Humedad relativa'])(
    'headed %s is read in %%, and never as a temperature',
    (name) => {
      const got = humid(
        file(
          `time;chamber (°C);${name}`,
          '2026-03-04 10:00;14.0;82.5',
          '2026-03-04 10:05;14.2;81',
          '2026-03-04 10:10;14;80',
        ),
      )
      expect(got.asked).toEqual([])
      expect(got.temps).toEqual([['chamber (°C)', 'house']])
      expect(got.rh).toEqual([[name, [82.5, 81, 80]]])
      expect(got.read.humidity[0]).toMatchObject({ unit: '%RH', role: 'humidity', column: 2 })
    },
  )

  it('is told by a row of units, by the unit in the cells, with a decimal comma', () => {
    const units = file('Zeit;Luft;H1', ';°C;%rH', '2026-03-04 10:00;14,0;82,5', '2026-03-04 10:05;14,2;81,25')
    expect(humid(units, { roles: { Luft: 'house' } }).rh).toEqual([['H1', [82.5, 81.25]]])
    const cells = file('time;air (°C);RH', '2026-03-04 10:00;14;82 %RH', '2026-03-04 10:05;14;81.5% rh')
    expect(humid(cells).rh).toEqual([['RH', [82, 81.5]]])
  })

  it('is the one a person names; a column in degrees is not, whoever names it', () => {
    const text = file('time;air (°C);sensor 2', '2026-03-04 10:00;14;82', '2026-03-04 10:05;14;81')
    expect(humid(text, { roles: { 'air (°C)': 'house', 'sensor 2': 'humidity' } }).rh).toEqual([['sensor 2', [82, 81]]])
    const wet = file('time;core (°C);wet bulb humidity (°C)', '2026-03-04 10:00;14;12', '2026-03-04 10:05;14;12')
    const got = humid(wet, { roles: { 'wet bulb humidity (°C)': 'humidity' } })
    expect(got.rh).toEqual([])
    expect(got.notes).toMatch(/in degrees; not read as humidity/)
  })

  it('is not a percent of something unsaid, nor a figure that may be a part of 1: left out, with a note', () => {
    const fan = humid(file('time;core (°C);channel 3 (%)', '2026-03-04 10:00;14;40', '2026-03-04 10:05;14;41'))
    expect(fan.rh).toEqual([])
    expect(fan.temps).toEqual([['core (°C)', 'core']])
    expect(fan.notes).toMatch(/channel 3 \(%\): in %, of what is not said/)
    const cells = humid(file('time;core;side', '2026-03-04 10:00;14 °C;40 %', '2026-03-04 10:05;14 °C;41 %'))
    expect(cells.temps).toEqual([['core', 'core']])
    expect(cells.notes).toMatch(/side: in %/)
    const part = humid(file('time;core (°C);RH', '2026-03-04 10:00;14;0.82', '2026-03-04 10:05;14;0.81'))
    expect(part.rh).toEqual([])
    expect(part.notes).toMatch(/at most 1/)
  })

  it('is not a dew point, an absolute humidity, a set point or a battery', () => {
    const text = file(
      'time;core (°C);absolute humidity (g/m3);RH set point (%);battery (%)',
      '2026-03-04 10:00;14;9;80;99',
      '2026-03-04 10:05;14;9;80;99',
    )
    const got = humid(text)
    expect(got.rh).toEqual([])
    expect(got.temps).toEqual([['core (°C)', 'core']])
    expect(got.notes).toBe('')
  })

  it('beside one unnamed temperature it is asked whether that is the core or the air', () => {
    const text = file('time;temp (°C);RH (%)', '2026-03-04 10:00;14;82', '2026-03-04 10:05;14;81')
    expect(humid(text).asked).toEqual(['roles'])
    const house = humid(text, { roles: { 'temp (°C)': 'house' } })
    expect(house.asked).toEqual([])
    expect(house.temps).toEqual([['temp (°C)', 'house']])
    expect(humid(text, { roles: { 'temp (°C)': 'core' } }).temps).toEqual([['temp (°C)', 'core']])
  })

  it('a sensor a little over saturation reads 100; far out, or a word, is no reading', () => {
    const got = humid(
      file(
        'time;air (°C);RH (%)',
        '2026-03-04 10:00;14;102.3',
        '2026-03-04 10:05;14;OPEN',
        '2026-03-04 10:10;14;999',
        '2026-03-04 10:15;14;-3',
        '2026-03-04 10:20;14;',
        '2026-03-04 10:25;14;0',
      ),
    )
    expect(got.rh).toEqual([['RH (%)', [100, null, null, null, null, 0]]])
    expect(got.read.anomalies.counts).toEqual({ 'not-a-reading': 1, 'no-reading': 1, 'out-of-range': 2 })
    expect(got.read.channels[0]!.series.map((p) => p.tempC)).toEqual([14, 14, 14, 14, 14, 14])
  })

  it('a log of humidity alone is read; a cook is not judged by it', async () => {
    const text = file('time;RH (%)', '2026-03-04 10:00;82', '2026-03-04 10:05;81')
    expect(humid(text)).toMatchObject({ asked: [], temps: [], rh: [['RH (%)', [82, 81]]] })
    const judged = await judgeLog([new TextEncoder().encode(text)])
    expect(judged).toMatchObject({ verdict: 'cannot-tell', because: 'no core probe gave a reading' })
  })
})

it('a cook log is judged alike with and without a column of humidity', async () => {
  const rows = Array.from({ length: 90 }, (_, i) => [i, 20 + i * 0.7, 75, 40 + (i % 5)] as const)
  const stamp = (i: number) => `2026-03-04 ${10 + Math.floor(i / 60)}:${String(i % 60).padStart(2, '0')}:00`
  const plain = file('time;core (°C);house (°C)', ...rows.map(([i, c, h]) => `${stamp(i)};${c.toFixed(2)};${h}`))
  const both = file(
    'time;RH (%);core (°C);house (°C)',
    ...rows.map(([i, c, h, r]) => `${stamp(i)};${r};${c.toFixed(2)};${h}`),
  )
  const run = async (text: string) => {
    const { format: _f, ...rest } = await judgeLog([new TextEncoder().encode(text)], { product: { species: 'meat' } })
    return rest
  }
  expect(await run(both)).toEqual(await run(plain))
})

it('whatever the order of the columns and the marks of the file, humidity and temperatures come back apart (property)', () => {
  const reading = fc.tuple(
    fc.integer({ min: -200, max: 900 }),
    fc.integer({ min: 0, max: 1000 }),
    fc.integer({ min: -200, max: 900 }),
  )
  fc.assert(
    fc.property(
      fc.array(reading, { minLength: 3, maxLength: 30 }),
      fc.constantFrom([0, 1, 2], [1, 0, 2], [2, 1, 0], [1, 2, 0]),
      fc.constantFrom(';', '\t'),
      fc.constantFrom('.', ','),
      fc.boolean(),
      (rows, order, delimiter, decimal, signed) => {
        fc.pre(rows.some((r) => r[1] > 10))
        const heads = ['chamber (°C)', 'RH (%)', 'core (°C)']
        const cell = (v: number, k: number) =>
          (v / 10).toFixed(1).replace('.', decimal) + (k === 1 && signed ? ' %' : '')
        const lines = rows.map((r, i) =>
          [`2026-03-04 10:${String(i).padStart(2, '0')}:00`, ...order.map((k) => cell(r[k], k))].join(delimiter),
        )
        const read = readLog([['time', ...order.map((k) => heads[k]!)].join(delimiter), ...lines].join('\n'))
        expect(read.questions).toEqual([])
        expect(read.humidity.map((h) => h.series.map((p) => p.rhPct))).toEqual([rows.map((r) => r[1] / 10)])
        for (const [k, name] of [
          [0, 'chamber (°C)'],
          [2, 'core (°C)'],
        ] as const)
          expect(read.channels.find((c) => c.name === name)!.series.map((p) => p.tempC)).toEqual(
            rows.map((r) => r[k] / 10),
          )
      },
    ),
    { numRuns: 200 },
  )
})
