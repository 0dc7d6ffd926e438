import { describe, expect, it } from 'vitest'
import { readLog } from '../../src/log/read.ts'
import { sniff } from '../../src/log/sniff.ts'

const asked = (text: string): string[] => sniff(text).questions.map((q) => q.about)
const file = (...lines: string[]): string => lines.join('\n')

describe('what a file does not say is asked, never guessed', () => {
  it('03/04/2026 in every row: day or month first', () => {
    const text = file('time,core (°C)', '03/04/2026 10:00,20.0', '03/04/2026 10:01,21.0', '03/04/2026 10:02,22.0')
    expect(asked(text)).toEqual(['date-order'])
    expect(readLog(text).channels).toEqual([])
    const read = readLog(text, { dateOrder: 'mdy' })
    expect(read.questions).toEqual([])
    expect(new Date(read.firstStamp! * 1000).toISOString()).toBe('2026-03-04T10:00:00.000Z')
  })

  it('a number above 12, days that follow each other, or a year in front settle the order', () => {
    expect(asked(file('time;core (°C)', '25/11/2026 10:00;20', '25/11/2026 10:01;21'))).toEqual([])
    expect(sniff(file('time;core (°C)', '11/25/2026 10:00;20', '11/25/2026 10:01;21')).format!.time.form).toBe('mdy')
    expect(
      sniff(file('time;core (°C)', '03/04/2026 23:59;20', '04/04/2026 00:00;21', '04/04/2026 00:01;21')).format!.time
        .form,
    ).toBe('dmy')
    expect(asked(file('time;core (°C)', '2026-03-04 10:00;20', '2026-03-04 10:01;21'))).toEqual([])
  })

  it('no unit: °C or °F, whatever the figures look like', () => {
    const text = file('time,core', '2026-03-04 10:00,150.0', '2026-03-04 10:01,160.0')
    expect(asked(text)).toEqual(['unit'])
    expect(readLog(text, { unit: 'F' }).channels[0]!.series[0]!.tempC).toBe(((150 - 32) * 5) / 9)
  })

  it('a unit the file itself writes stands against another that was answered, and is asked again', () => {
    for (const text of [
      file('Time;Air;Humidity', ';°C;%RH', '2026-03-04 10:00;22.0;90', '2026-03-04 10:10;22.0;90'),
      file('time,core (°C)', '2026-03-04 10:00,22.0', '2026-03-04 10:10,22.0'),
    ]) {
      const read = readLog(text, { unit: 'F', roles: { Air: 'house', Humidity: 'humidity' } })
      expect(read.questions.map((q) => q.about)).toContain('unit')
      expect(readLog(text, { unit: 'C', roles: { Air: 'house', Humidity: 'humidity' } }).questions).toEqual([])
    }
    // A bare letter may be the name of a probe.
    const lettered = file('time,Core C', '2026-03-04 10:00,150.0', '2026-03-04 10:01,160.0')
    expect(readLog(lettered, { unit: 'F' }).questions).toEqual([])
  })

  it('plain numbers for times with a heading that names no unit', () => {
    expect(asked(file('t,core (°C)', '0,20.0', '1,21.0', '2,22.0'))).toEqual(['time-unit'])
    expect(asked(file('elapsed min,core (°C)', '0,20.0', '1,21.0', '2,22.0'))).toEqual([])
    expect(readLog(file('seconds,core (°C)', '0,20.0', '30,21.0', '60,22.0')).channels[0]!.series[2]!.minute).toBe(1)
  })

  it('10:15 can be hours and minutes or minutes and seconds', () => {
    const text = file('time;core (°C)', '10:15;20', '10:16;21', '10:17;22')
    expect(asked(text)).toEqual(['time-unit'])
    expect(readLog(text, { timeUnit: 'hh:mm' }).channels[0]!.series[1]!.minute).toBe(1)
    expect(readLog(text, { timeUnit: 'mm:ss' }).channels[0]!.series[1]!.minute).toBeCloseTo(1 / 60, 12)
  })

  it('columns without a part: which is a core probe', () => {
    const text = file('time;T1 (°C);T2 (°C)', '10:15:00;20;60', '10:16:00;21;60', '10:17:00;22;61')
    expect(asked(text)).toEqual(['roles'])
    expect(readLog(text, { roles: { T1: 'core', T2: 'house' } }).channels.map((c) => c.role)).toEqual(['core', 'house'])
  })

  it('naming the house alone leaves one other column as the core; a name that no column bears settles nothing', () => {
    const text = file('time;T1 (°C);T2 (°C)', '10:15:00;20;60', '10:16:00;21;60', '10:17:00;22;61')
    expect(readLog(text, { roles: { T2: 'house' } }).channels.map((c) => c.role)).toEqual(['core', 'house'])
    expect(readLog(text, { roles: { T9: 'core' } }).questions.map((q) => q.about)).toEqual(['roles'])
  })

  it('commas and points in one file', () => {
    expect(
      asked(file('time;core (°C);house (°C)', '10:15:00;20,5;60.1', '10:16:00;20,6;60.1', '10:17:00;20,7;60.2')),
    ).toEqual(['decimal'])
  })

  it('a file that is no table says so', () => {
    expect(asked('')).toEqual(['layout'])
    expect(asked('Dear reader,\nthis is a letter, not a log.\n')).toEqual(['layout'])
  })
})

describe('what is not a plain reading is listed with its row', () => {
  it('repeated stamps, rows out of order, sentinels, words and gaps', () => {
    const text = file(
      'time;core (°C)',
      '2026-11-25 10:00:00;20.0',
      '2026-11-25 10:01:00;21.0',
      '2026-11-25 10:01:00;21.5',
      '2026-11-25 10:03:00;OPEN',
      '2026-11-25 10:02:00;22.0',
      '2026-11-25 10:04:00;-999',
      '2026-11-25 10:05:00;',
      'end of block;',
      '2026-11-25 10:06:00;25.0',
      '2026-11-25 10:26:00;45.0',
    )
    const read = readLog(text)
    expect(read.anomalies.listed).toEqual([
      { row: 4, kind: 'repeated-time' },
      { row: 5, kind: 'not-a-reading', column: 'core (°C)', text: 'OPEN' },
      { row: 6, kind: 'out-of-order' },
      { row: 7, kind: 'out-of-range', column: 'core (°C)', text: '-999' },
      { row: 8, kind: 'no-reading', column: 'core (°C)' },
      { row: 9, kind: 'no-reading', column: 'core (°C)' },
      { row: 9, kind: 'bad-time', text: 'end of block' },
      { row: 11, kind: 'gap', text: '20 min' },
    ])
    expect(read.channels[0]!.series).toEqual([
      { minute: 0, tempC: 20 },
      { minute: 1, tempC: 21 },
      { minute: 2, tempC: 22 },
      { minute: 3, tempC: null },
      { minute: 4, tempC: null },
      { minute: 5, tempC: null },
      { minute: 6, tempC: 25 },
      { minute: 26, tempC: 45 },
    ])
  })

  it('a clock set back or forward by an hour is asked; shifted, the minutes run on', () => {
    const back = file(
      'time;core (°C)',
      '2026-10-25 01:50;20',
      '2026-10-25 01:55;21',
      '2026-10-25 01:00;22',
      '2026-10-25 01:05;23',
    )
    const open = readLog(back)
    expect(open.questions.map((q) => q.about)).toEqual(['clock-change'])
    expect(open.channels[0]!.series).toEqual([])
    expect(readLog(back, { clockChange: 'shift' }).channels[0]!.series.map((p) => p.minute)).toEqual([0, 5, 10, 15])
    const forward = file(
      'time;core (°C)',
      '2026-03-29 01:50;20',
      '2026-03-29 01:55;21',
      '2026-03-29 03:00;22',
      '2026-03-29 03:05;23',
    )
    expect(readLog(forward).questions.map((q) => q.about)).toEqual(['clock-change'])
    expect(readLog(forward, { clockChange: 'shift' }).channels[0]!.series.map((p) => p.minute)).toEqual([0, 5, 10, 15])
    expect(readLog(forward, { clockChange: 'as-read' }).channels[0]!.series.map((p) => p.minute)).toEqual([
      0, 5, 70, 75,
    ])
  })

  it('stamps with an offset know no clock change', () => {
    const text = file(
      'time;core (°C)',
      '2026-10-25T02:50:00+02:00;20',
      '2026-10-25T02:55:00+02:00;21',
      '2026-10-25T02:00:00+01:00;22',
    )
    const read = readLog(text)
    expect(read.questions).toEqual([])
    expect(read.channels[0]!.series.map((p) => p.minute)).toEqual([0, 5, 10])
  })

  it('clock times run on past midnight', () => {
    const text = file('time (hh:mm);core (°C)', '23:58;20', '23:59;21', '00:00;22', '00:01;23')
    expect(readLog(text).channels[0]!.series.map((p) => p.minute)).toEqual([0, 1, 2, 3])
  })

  it('a date and a clock in two columns, a units row, a decimal comma', () => {
    const text = file(
      'Kitchen logger',
      '',
      'Date;Time;Core 1;Core 2;Smokehouse',
      ';;°F;°F;°F',
      '25.11.2026;08:00:00;46,4;47,3;140,0',
      '25.11.2026;08:01:00;50,0;48,2;141,8',
    )
    const read = readLog(text)
    expect(read.questions).toEqual([])
    expect(read.channels.map((c) => [c.name, c.role, c.unit])).toEqual([
      ['Core 1', 'core', 'F'],
      ['Core 2', 'core', 'F'],
      ['Smokehouse', 'house', 'F'],
    ])
    expect(read.channels[0]!.series).toEqual([
      { minute: 0, tempC: ((46.4 - 32) * 5) / 9 },
      { minute: 1, tempC: 10 },
    ])
  })

  it('old line ends, blanks as delimiter, units in the cells', () => {
    expect(readLog('elapsed min;core (°C)\r0;20.5\r1;21.5\r2;22\r').channels[0]!.series).toHaveLength(3)
    expect(
      readLog(
        file('date time core_C', '2026-11-25 08:00:00  20.5', '2026-11-25 08:01:00  21.5', '2026-11-25 08:02:00  22.5'),
      ).channels[0]!.series[2],
    ).toEqual({ minute: 2, tempC: 22.5 })
    expect(readLog(file('elapsed min;core', '0;68 °F', '1;70 °F', '2;71.6 °F')).channels[0]!.series[0]).toEqual({
      minute: 0,
      tempC: 20,
    })
  })
})
