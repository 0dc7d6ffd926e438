import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { parseArgs, type ArgsDef } from 'citty'
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import { Stop } from '../src/command.ts'
import { judge as command } from '../src/commands/judge.ts'
import { phsInFile, phsInText, placePh } from '../src/judge/ph-given.ts'

const bin = fileURLToPath(new URL('../bin/forcemeat.mjs', import.meta.url))
const examples = fileURLToPath(new URL('../../../examples/logs', import.meta.url))
let folder: string
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'forcemeat-slow-'))
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))
const at = (name: string) => join(folder, name)

/** The command as a process of its own, with its standard input. */
const run = (args: readonly string[], input = '') =>
  spawnSync(process.execPath, [bin, 'judge', ...args], {
    input,
    encoding: 'utf8',
    cwd: folder,
    env: { ...process.env, NO_COLOR: '1' },
  })

/** The command in this process, which starts nothing: what it prints, or what it stops with. */
async function answer(args: string[]): Promise<{ status: number; stdout: string; stderr: string }> {
  const { definition } = command
  const printed: string[] = []
  const spy = vi.spyOn(process.stdout, 'write').mockImplementation((text) => {
    printed.push(String(text))
    return true
  })
  try {
    const status: unknown = await definition.run!({
      rawArgs: args,
      args: parseArgs(args, definition.args as ArgsDef),
      cmd: definition,
    })
    return { status: Number(status), stdout: printed.join(''), stderr: '' }
  } catch (error) {
    if (!(error instanceof Stop)) throw error
    return { status: error.code, stdout: printed.join(''), stderr: error.message }
  } finally {
    spy.mockRestore()
  }
}

/** A log of one reading an hour, at a constant temperature. */
const steady = (
  head: string,
  tempC: number | string,
  hours: number,
  stamp = (h: number): string => String(h),
): string => [head, ...Array.from({ length: hours + 1 }, (_, h) => `${stamp(h)},${tempC}`)].join('\n')
const dated = (h: number): string =>
  new Date(Date.UTC(2026, 10, 4, 14 + h)).toISOString().slice(0, 16).replace('T', ' ')

type Told = {
  verdict: string
  systems: { jurisdiction: string; degreeHours: number; limit: number; hoursLeft?: number; runsOutAt?: string }[]
  findings: { rule: string; verdict: string; because: string }[]
  notes: string[]
  questions: { about: string }[]
  stretches: { atOrBelowC: number; hours: number }[]
  probe: string
}

describe('judging a fermentation', () => {
  const log = (name: string, text: string) => {
    writeFileSync(at(name), text)
    return at(name)
  }
  const judge = async (...more: string[]) => {
    const { status, stdout, stderr } = await answer([...more, '--as', 'ferment', '--json'])
    expect(stderr).toBe('')
    return { status, told: JSON.parse(stdout) as Told }
  }

  // 35 °C for 20 h: (35 − 15.6) × 20 = 388 °C·h of 555, and (95 − 60) × 20 = 700 °F·h of 1000. The tables: CFIA, Meat hygiene manual of
  // procedures, 4.16; American Meat Institute Foundation, Good manufacturing practices (1997), whose limit at 90 °F and over is from memory.
  it('counts both published systems from the air to the pH, and passes by the one whose limit was read', async () => {
    const file = log('warm.csv', steady('Hours,Air (°C)', 35, 30))
    const { status, told } = await judge(file, '--ph', '0=5.7, 20=5.2', '--ph-meter-calibrated', '--place', 'CA')
    expect([status, told.verdict]).toEqual([0, 'pass'])
    const [ca, us] = told.systems
    expect(ca!.degreeHours).toBeCloseTo(388, 6)
    expect([ca!.limit, us!.limit]).toEqual([555, 1000])
    expect(us!.degreeHours).toBeCloseTo(700, 6)
    expect(ca!.runsOutAt).toBeUndefined()
    const both = await judge(file, '--ph', '0=5.7, 20=5.2', '--ph-meter-calibrated')
    expect([both.status, both.told.findings.map((f) => f.verdict)]).toEqual([3, ['pass', 'cannot-tell']])
  })

  it('cannot tell while nobody said whether the pH meter was calibrated, and asks', async () => {
    const file = log('warm.csv', steady('Hours,Air (°C)', 30, 30))
    const { status, told } = await judge(file, '--ph', '20=5.2')
    expect([status, told.questions.map((q) => q.about)]).toEqual([3, ['ph-meter']])
    const said = await judge(file, '--ph', '20=5.2', '--no-ph-meter-calibrated')
    expect([said.status, said.told.findings[0]!.because]).toEqual([3, expect.stringContaining('not calibrated')])
    expect((await judge(file, '--ph', '20=5.2', '--ph-meter-calibrated')).status).toBe(0)
  })

  it('says the hours left and when they run out by the clock of the log, where the pH is not there yet', async () => {
    const file = log('left.csv', steady('Time,Air (°C)', 25.6, 20, dated))
    const { status, told } = await judge(file, '--ph', '2026-11-05 08:00=5.6', '--ph-meter-calibrated')
    expect(status).toBe(3)
    // 10 °C over the base for 20 h, 200 of 665 °C·h: 46.5 h more.
    expect(told.systems[0]!.hoursLeft).toBeCloseTo(46.5, 6)
    expect(told.systems[0]!.runsOutAt).toBe('2026-11-07T08:30:00')
    expect(told.findings[0]!.because).toContain('pH 5.3 was not reached (last 5.6 ± 0.05)')
  })

  it('fails a count over its limit, calibrated or not, and with no pH at all', async () => {
    const file = log('over.csv', steady('Hours,Air (°C)', 36, 40))
    for (const more of [[], ['--ph', '40=5.2'], ['--ph', '40=5.2', '--ph-meter-calibrated']])
      expect((await judge(file, '--place', 'CA', ...more)).status, more.join(' ')).toBe(1)
  })

  it('takes the error of the thermometer, and lets nothing pass whose check is overdue', async () => {
    // 30 °C for 45 h: 648 of 665 °C·h; half a degree more is 670.5.
    const args = [
      log('near.csv', steady('Hours,Air (°C)', 30, 45)),
      '--ph',
      '45=5.2',
      '--ph-meter-calibrated',
      '--place',
      'CA',
    ]
    expect((await judge(...args)).status).toBe(0)
    expect((await judge(...args, '--tolerance-c', '0.5')).status).toBe(3)
    expect((await judge(...args, '--check-overdue')).told.findings[0]!.because).toContain('overdue')
  })

  it('takes the error of the pH meter: a pH whose interval reaches over 5.3 ends no count', async () => {
    const file = log('warm.csv', steady('Hours,Air (°C)', 30, 30))
    const at20 = (ph: string, ...more: string[]) =>
      judge(file, '--ph', `0=5.7, 20=${ph}`, '--ph-meter-calibrated', '--place', 'CA', ...more)
    const near = await at20('5.29', '--ph-tolerance', '0.05')
    expect([near.status, near.told.verdict]).toEqual([3, 'cannot-tell'])
    expect(near.told.findings[0]!.because).toContain('pH 5.3 was not reached (last 5.29 ± 0.05)')
    // The hours go on: 14.4 over the base, 432 of 665 °C·h at the end of the log.
    expect(near.told.systems[0]!.hoursLeft).toBeCloseTo(233 / 14.4, 6)
    expect((await at20('5.25', '--ph-tolerance', '0.05')).status).toBe(0)
    expect((await at20('5.29', '--ph-tolerance', '0.01')).status).toBe(0)
  })

  // Usual error of a meter set that day: common practice, no source; the batch judgement counts with the same.
  it('takes the usual error of a pH meter where none is given, and the finding says so', async () => {
    const file = log('warm.csv', steady('Hours,Air (°C)', 30, 30))
    const near = await judge(file, '--ph', '20=5.29', '--ph-meter-calibrated', '--place', 'CA')
    expect(near.status).toBe(3)
    expect(near.told.findings[0]!.because).toContain('the error of the pH meter is not given: ± 0.05')
    const clear = await judge(file, '--ph', '20=5.25', '--ph-meter-calibrated', '--place', 'CA')
    expect([clear.status, clear.told.findings[0]!.because]).toEqual([
      0,
      expect.stringContaining('the error of the pH meter is not given: ± 0.05'),
    ])
    const given = await judge(file, '--ph', '20=5.2', '--ph-meter-calibrated', '--ph-tolerance', '0.02')
    expect(given.told.findings[0]!.because).not.toContain('not given')
  })

  it('fails only where the count is over at the earliest the meter allows', async () => {
    // 36 °C: 20.4 an hour; the limit of 555 is used up after 27.2 h. Reached at hour 26 if the meter reads 0.05 high, at 30 for sure.
    const file = log('hot.csv', steady('Hours,Air (°C)', 36, 30))
    const args = [file, '--ph', '26=5.33, 30=5.2', '--ph-meter-calibrated', '--place', 'CA']
    expect((await judge(...args, '--ph-tolerance', '0.01')).status).toBe(1)
    const open = await judge(...args, '--ph-tolerance', '0.05')
    expect([open.status, open.told.findings[0]!.because]).toEqual([3, expect.stringContaining('error of the pH meter')])
  })

  it('does not pass a pH taken long after the log ended, nor one beyond a hole', async () => {
    const file = log('short.csv', steady('Hours,Air (°C)', 24, 20))
    const late = await judge(file, '--ph', '60=5.1', '--ph-meter-calibrated')
    expect([late.status, late.told.findings[0]!.because]).toEqual([3, expect.stringContaining('nothing is known')])
    const rows = Array.from({ length: 31 }, (_, h) => h).flatMap((h) => (h > 8 && h < 14 ? [] : [`${h},24`]))
    const hole = await judge(
      log('hole.csv', ['Hours,Air (°C)', ...rows].join('\n')),
      '--ph',
      '20=5.1',
      '--ph-meter-calibrated',
    )
    expect([hole.status, hole.told.findings[0]!.because]).toEqual([3, expect.stringContaining('between hour 8.0')])
  })

  it('does not pass a target that was reached before the log began', async () => {
    const file = log('late.csv', steady('Time,Air (°C)', 25, 20, dated))
    const { status, told } = await judge(
      file,
      '--ph',
      '2026-11-04 12:00=5.2; 2026-11-04 20:00=5.1',
      '--ph-meter-calibrated',
    )
    expect([status, told.findings[0]!.because]).toEqual([3, expect.stringContaining('before the log begins')])
  })

  it('takes the warmest of several columns of air, and asks where none is named as the air', async () => {
    const rows = Array.from({ length: 21 }, (_, h) => `${h},22,25.6`)
    const two = await judge(log('two.csv', ['Hours,Air top (°C),Air low (°C)', ...rows].join('\n')))
    expect(two.told.systems[0]!.degreeHours).toBeCloseTo(200, 6)
    const open = await judge(log('open.csv', ['Hours,A (°C),B (°C)', ...rows].join('\n')))
    expect([open.status, open.told.questions.map((q) => q.about)]).toEqual([3, ['roles']])
    expect((await judge(at('open.csv'), '--house', 'B')).told.systems[0]!.degreeHours).toBeCloseTo(200, 6)
  })

  it('prints it for a person, in °F for who reads those, from standard input too', async () => {
    const text = steady('Hours,Air (°C)', 30, 30)
    const { status, stdout } = run(['-', '--as', 'ferment', '--ph', '20=5.2', '--ph-meter-calibrated', '--us'], text)
    expect(status, stdout).toBe(0)
    expect(stdout).toMatch(/^CA +288\.0 of 665 °C·h; highest 86\.0 °F; the count ended after 20:00 h$/m)
    expect(stdout).toMatch(/^US +520\.0 of 1200 °F·h/m)
    expect(stdout).toMatch(/verdict {3}✓ pass$/m)
  })

  it('judges the example of the invented kitchen', async () => {
    const phs = join(examples, 'long-0312-ph.csv')
    const { status, told } = await judge(
      join(examples, 'long-0312-ripening.csv'),
      '--ph-file',
      phs,
      '--ph-meter-calibrated',
    )
    expect([status, told.verdict]).toEqual([0, 'pass'])
  })

  it.each([
    [
      'a target above the published one',
      ['--target-ph', '5.6'],
      '--target-ph: is "5.6"; allowed: a number from 3 to 5.3',
    ],
    ['a pH that is none', ['--ph', '0=57'], '--ph: pH is "57"; allowed: a pH from 2 to 9'],
    ['a reading without its time', ['--ph', '5.2'], '--ph: holds "5.2"; allowed: when=pH'],
    [
      'an instant where the log has no dates',
      ['--ph', '2026-11-04 15:00=5.2'],
      'allowed: hours from the start of the log',
    ],
    ['both ways of giving pH', ['--ph', '0=5.7', '--ph-file', 'x.csv'], '--ph: is given beside --ph-file'],
    [
      'a meter finer than any',
      ['--ph', '20=5.2', '--ph-tolerance', '0'],
      '--ph-tolerance: is "0"; allowed: a number from 0.01',
    ],
    ['an error of a meter that read nothing', ['--ph-tolerance', '0.05'], '--ph-tolerance: goes unused'],
    ['a pH file that is not there', ['--ph-file', 'none.csv'], '--ph-file: none.csv: no such file'],
    ['a place without a system', ['--place', 'EU'], '--place: is "EU"; allowed: CA, US'],
    ['an option of another judgement', ['--cured'], '--cured: goes unused with --as ferment'],
    ['a core, which is not counted', ['--core', 'A'], '--core: goes unused with --as ferment'],
    ['a word that is no judgement', ['--as', 'souring'], '--as: is "souring"; allowed: one of cook-and-chill, ferment'],
  ] as const)('exits 2 for %s, naming the option and what is allowed', async (_title, more, said) => {
    const file = log('warm.csv', steady('Hours,Air (°C)', 30, 30))
    const { status, stdout, stderr } = await answer([file, '--as', 'ferment', ...more])
    expect([status, stdout, stderr]).toEqual([2, '', expect.stringContaining(said)])
  })
})

describe('pH readings as they are given', () => {
  it('reads a list with commas, and one with semicolons and decimal commas', async () => {
    expect(phsInText('0=5.7, 20=5.2').map(({ when, ph }) => [when, ph])).toEqual([
      ['0', 5.7],
      ['20', 5.2],
    ])
    expect(phsInText('0,5=5,7; 20=5,2').map(({ when, ph }) => [when, ph])).toEqual([
      ['0,5', 5.7],
      ['20', 5.2],
    ])
  })

  it('reads a table by its heads, and names the cell of a fault', async () => {
    writeFileSync(at('ph.csv'), 'who;hour;pH\nida;0;5,7\nida;20;5,2\n')
    expect((await phsInFile(at('ph.csv'))).map(({ when, ph }) => [when, ph])).toEqual([
      ['0', 5.7],
      ['20', 5.2],
    ])
    writeFileSync(at('bad.csv'), 'hour,pH\n0,5.7\n20,low\n')
    await expect(phsInFile(at('bad.csv'))).rejects.toThrow('--ph-file: B3: pH is "low"')
    writeFileSync(at('heads.csv'), 'a,b\n0,5.7\n')
    await expect(phsInFile(at('heads.csv'))).rejects.toThrow('a head "time" or "hour" and a head "pH"')
  })

  it('never guesses a zone: an instant is written as the clock of the log is', async () => {
    const given = (when: string) => ({ when, ph: 5.2, where: '--ph' })
    const start = Date.UTC(2026, 10, 4, 14)
    expect(placePh(given('1.5'), start, 'no-zone').at - start).toBe(5_400_000)
    expect(placePh(given('2026-11-04 16:00'), start, 'no-zone').at - start).toBe(7_200_000)
    expect(placePh(given('2026-11-04T17:00+01:00'), start, 'zone').at - start).toBe(7_200_000)
    expect(() => placePh(given('2026-11-04T16:00Z'), start, 'no-zone')).toThrow(/names a zone/)
    expect(() => placePh(given('2026-11-04 16:00'), start, 'zone')).toThrow(/names no zone/)
    expect(() => placePh(given('2026-02-30 16:00'), start, 'no-zone')).toThrow(/is no time/)
  })
})

describe('judging the freezing of pork', () => {
  const judge = async (text: string, ...more: string[]) => {
    writeFileSync(at('frozen.csv'), text)
    const { status, stdout, stderr } = await answer([at('frozen.csv'), '--as', 'freezing', '--json', ...more])
    expect(stderr).toBe('')
    return { status, told: JSON.parse(stdout) as Told }
  }
  const pork = ['--species', 'pork', '--thickness-mm', '120']

  // Former 9 CFR 318.10(c)(2), Table 2: −20.6 °C for 82 h; Regulation (EU) 2015/1375, Annex II, method 3: −21 °C for 82 h.
  it('passes by the centre where one published schedule is met, by the place where one is named', async () => {
    const us = steady('Hours,Centre (°C)', -20.7, 82)
    expect((await judge(us, ...pork)).status).toBe(0)
    expect((await judge(us, ...pork, '--place', 'US')).status).toBe(0)
    expect((await judge(us, ...pork, '--place', 'EU')).status).toBe(1)
    expect((await judge(us, ...pork, '--place', 'US', '--tolerance-c', '0.3')).status).toBe(3)
    expect((await judge(us, ...pork, '--check-overdue')).status).toBe(3)
    expect((await judge(steady('Hours,Centre (°C)', -20.7, 81), ...pork)).status).toBe(1)
  })

  it('never passes game, and asks what the meat is where nobody said', async () => {
    const cold = steady('Hours,Centre (°C)', -38, 200)
    expect((await judge(cold, '--species', 'wild-boar', '--thickness-mm', '50')).status).toBe(1)
    const open = await judge(cold, '--thickness-mm', '50')
    expect([open.status, open.told.questions.map((q) => q.about)]).toEqual([3, ['species']])
  })

  it('lets the worst of several probes decide, and cannot tell without a centre', async () => {
    const rows = Array.from({ length: 121 }, (_, h) => `${h},-25,-17`)
    const two = await judge(['Hours,Centre 1 (°C),Centre 2 (°C)', ...rows].join('\n'), ...pork)
    expect([two.status, two.told.probe]).toEqual([1, 'Centre 2 (°C)'])
    const room = await judge(['Hours,Room (°C),Humidity (%RH)', '0,-25,80', '1,-25,80', '2,-25,80'].join('\n'), ...pork)
    expect([room.status, room.told.questions.map((q) => q.about)]).toEqual([3, ['roles']])
  })

  it('judges the example of the invented kitchen, and prints it with a true minus', async () => {
    const file = join(examples, 'trim-0077-freezing.csv')
    const { status, stdout } = run([file, '--as', 'freezing', ...pork, '--tolerance-c', '0.3', '--us'])
    expect(status, stdout).toBe(0)
    expect(stdout).toContain('pork, 4.724 in thick')
    expect(stdout).toContain(
      'h unbroken at or below \u221220.6 °C, the error of ±0.3 °C taken off; the schedule asks for 82 h',
    )
    expect(stdout).toMatch(/verdict {3}✓ pass$/m)
  })

  it('exits 2 without the thickness, for a species of cooking, and for pH', async () => {
    writeFileSync(at('frozen.csv'), steady('Hours,Centre (°C)', -20.7, 82))
    const said = async (...more: string[]) => (await answer([at('frozen.csv'), '--as', 'freezing', ...more])).stderr
    expect(await said('--species', 'pork')).toContain('--thickness-mm: is missing; allowed:')
    expect(await said('--thickness-mm', '50', '--species', 'meat')).toContain(
      'allowed: one of pork, wild-boar, bear, horse',
    )
    expect(await said(...pork, '--ph', '0=5.7')).toContain(
      '--ph: goes unused with --as freezing; allowed: with --as ferment',
    )
  })
})
