import { describe, expect, it } from 'vitest'
import { isReadableName } from '@forcemeat/server/feed/reading'
import { readGrowing, type GrowingRequest } from '../src/work/growing-file.ts'

const read = (text: string, answers: GrowingRequest['answers'] = {}) =>
  readGrowing({ bytes: new TextEncoder().encode(text), answers, offsetMinutes: 0 })
const rows = (cells: readonly string[]): string => cells.map((c, m) => `2026-03-02T08:0${m}:00Z;${c}`).join('\n') + '\n'

describe('a logger file of a chamber that grows', () => {
  it('gives its humidity beside its temperature, each under its own quantity', () => {
    const { readings, questions } = read(
      `Time;Chamber [°C];Humidity (%RH)\n${rows(['24.1;91', '24.2;;', '24.3;103.5'])}`,
    )
    expect(questions).toEqual([])
    expect(readings).toEqual([
      { channel: 'Chamber', tempC: 24.1, at: '2026-03-02T08:00:00.000Z' },
      { channel: 'Chamber', tempC: 24.2, at: '2026-03-02T08:01:00.000Z' },
      { channel: 'Chamber', tempC: 24.3, at: '2026-03-02T08:02:00.000Z' },
      { channel: 'Humidity', rhPct: 91, at: '2026-03-02T08:00:00.000Z' },
      { channel: 'Humidity', rhPct: 100, at: '2026-03-02T08:02:00.000Z' },
    ])
  })

  it.each([
    ['Chamber %RH', 'Chamber humidity'],
    ['RH [%]', 'RH'],
    ['%RH', 'humidity'],
    ['Feuchte in % r.H.', undefined],
    ['Chamber humidity, % RH', undefined],
  ])('gives the humidity of %j a name of its own that a feed takes', (heading, name) => {
    const { readings } = read(`Time;Chamber [°C];${heading}\n${rows(['24.1;91', '24.2;92', '24.3;93'])}`)
    const [warm] = readings.filter((r) => r.tempC !== undefined)
    const moist = readings.filter((r) => r.rhPct !== undefined)
    expect(moist).toHaveLength(3)
    expect(moist[0]!.channel).not.toBe(warm!.channel)
    if (name !== undefined) expect(moist[0]!.channel).toBe(name)
    expect(isReadableName(moist[0]!.channel, 'rhPct')).toBe(true)
    expect(isReadableName(warm!.channel, 'tempC')).toBe(true)
  })

  it('of humidity alone is followed too', () => {
    const { readings } = read(`Time;Humidity %\n${rows(['91', '92', '93'])}`)
    expect(readings.map((r) => r.rhPct)).toEqual([91, 92, 93])
  })

  it('asks whose a nameless temperature beside a humidity is, and takes the answer', () => {
    const text = `Time;T1 [°C];RH [%]\n${rows(['24.1;91', '24.2;92', '24.3;93'])}`
    const asked = read(text)
    expect(asked.readings).toEqual([])
    expect(asked.questions).toMatchObject([{ about: 'roles', choices: [expect.stringContaining('T1') as string] }])
    const column = asked.questions[0]!.choices[0]!
    expect(read(text, { roles: { [column]: 'house' } }).readings).toHaveLength(6)
    expect(read(text, { roles: { [column]: 'core' } }).readings).toHaveLength(6)
    expect(read(text, { roles: { [column]: 'other' } }).readings.every((r) => r.rhPct !== undefined)).toBe(true)
  })
})
