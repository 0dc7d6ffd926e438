import { readFile } from 'node:fs/promises'
import { chill } from '@forcemeat/craft/heat/chill'
import { lethality } from '@forcemeat/craft/heat/lethality'
import { judgeLog } from '@forcemeat/craft/log/judge-log'
import { degreeHours } from '@forcemeat/craft/ferment/degree-hours'
import { freezing } from '@forcemeat/craft/pork/freezing'
import type { Finding } from '@forcemeat/craft/finding'
import { describe, expect, it } from 'vitest'

const inC = (f: number): number => ((f - 32) * 5) / 9
const of = (findings: readonly Finding[], rule: string): Finding => findings.find((f) => f.rule === rule)!
const meat = 'us.fsis.lethality.meat.6.5-log'

describe('a figure printed beside a verdict carries the error of the thermometer as the verdict does', () => {
  it('held time is that at or above the row with the error taken off (the log of the slow chill)', async () => {
    const bytes = await readFile(new URL('../../../../examples/logs/ring-0118-slow-chill.csv', import.meta.url))
    const held = async (toleranceC: number) =>
      of((await judgeLog([bytes], { product: { species: 'meat' }, toleranceC })).findings, meat)
    // Row of the table: 15 min at 139 °F (FSIS-GD-2021-14, Table 2).
    expect(await held(0)).toMatchObject({ measured: 1008.708, margin: 108.708, limit: 900, verdict: 'pass' })
    for (const [toleranceC, seconds] of [
      [0.5, 983.7],
      [2, 908.2],
    ] as const) {
      const found = await held(toleranceC)
      expect(found.measured).toBeCloseTo(seconds, 1)
      expect(found.margin).toBeCloseTo(seconds - 900, 1)
      expect(found.because).toContain(`held ${found.measured} s`)
      expect(found.because).toContain(`error of ±${toleranceC} °C taken off (1008.708 s as read)`)
    }
  })

  it('a row that is missed, or met only within the error, says both times', () => {
    const flat = (c: number, minutes: number) => [0, minutes].map((minute) => ({ minute, coreC: c }))
    const asked = (c: number, minutes: number, toleranceC: number) =>
      of(
        lethality({ log: flat(c, minutes), organism: 'salmonella', product: { species: 'meat' }, toleranceC }).findings,
        meat,
      )
    const unsure = asked(inC(140), 13, 0.5)
    expect(unsure).toMatchObject({ verdict: 'cannot-tell', measured: 0, margin: -720, limit: 720 })
    expect(unsure.because).toMatch(/held 0 s, .*±0\.5 °C taken off \(780 s as read\)/)
    const missed = asked(inC(130) + 0.2, 20, 0.5)
    expect(missed).toMatchObject({ verdict: 'fail', measured: 0, margin: -6720 })
    expect(missed.because).toMatch(/taken off \(1200 s as read\)/)
  })

  it('come-up, chill and freezing say that their figure holds the error', () => {
    const log = [
      { minute: 0, coreC: 5 },
      { minute: 30, coreC: 15 },
      { minute: 60, coreC: 30 },
      { minute: 90, coreC: 50 },
      { minute: 120, coreC: 70 },
      { minute: 150, coreC: 45 },
      { minute: 180, coreC: 20 },
      { minute: 240, coreC: 3 },
    ]
    const shared = { log, maxGapMinutes: 60 }
    const cook = (toleranceC: number) =>
      of(lethality({ ...shared, toleranceC, organism: 'salmonella' }).findings, 'us.fsis.lethality.come-up')
    expect(cook(0).because).not.toContain('error')
    expect(cook(1).because).toContain('at the most the error of ±1 °C allows')
    expect(cook(1).measured!).toBeGreaterThan(cook(0).measured!)
    const cooled = (toleranceC: number) =>
      of(chill({ ...shared, toleranceC, product: { cured: false } }).findings, 'us.fsis.cooling.option-1')
    expect(cooled(0).because).not.toContain('error')
    expect(cooled(1).because).toContain('at the most the error of ±1 °C allows')
    expect(cooled(1).measured!).toBeGreaterThan(cooled(0).measured!)
    const frozen = (toleranceC: number) =>
      freezing({
        thicknessMm: 100,
        species: 'pork',
        toleranceC,
        log: Array.from({ length: 400 }, (_, hour) => ({ hour, centreC: hour < 10 ? 4 : Math.max(-26, 14 - hour) })),
      }).findings.find((f) => f.verdict === 'pass')!
    expect(frozen(0).because).not.toContain('error')
    expect(frozen(1).because).toContain('the error of ±1 °C taken off')
    expect(frozen(1).measured!).toBeLessThan(frozen(0).measured!)
  })

  it('degree-hours print the room the error leaves, and both counts', () => {
    const log = [
      { hour: 0, tempC: 26, ph: 5.8 },
      { hour: 24, tempC: 26, ph: 5.2 },
    ]
    const counted = (toleranceC: number) => degreeHours({ log, toleranceC, phTolerance: 0 }).findings[0]!
    const [read, worst] = [counted(0), counted(1)]
    expect(worst.measured).toBe(read.measured)
    expect(worst.margin!).toBeCloseTo(read.margin! - 24, 9)
    expect(worst.because).toMatch(
      new RegExp(`${read.measured!.toFixed(1)} .*as read, ${(read.measured! + 24).toFixed(1)} .*±1 °C allows`),
    )
    expect(read.because).not.toContain('as read')
  })
})
