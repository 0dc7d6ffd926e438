import { describe, expect, it } from 'vitest'
import { chill, type CoolingProduct } from '../../src/heat/chill.ts'
import { lethality } from '../../src/heat/lethality.ts'
import type { Reading } from '../../src/heat/reading.ts'
import { judgeLog } from '../../src/log/judge-log.ts'

const inC = (f: number): number => ((f - 32) * 5) / 9
const cured: CoolingProduct = {
  cured: true,
  nitritePpm: 156,
  erythorbatePpm: 547,
  saltPct: 2.2,
  waterPct: 58,
  retail: true,
  intact: true,
  largeMassNonIntact: true,
}

/** A core through (minute, °C) points, a reading a minute. */
function course(points: readonly (readonly [number, number])[]): Reading[] {
  const [last] = points.at(-1)!
  return Array.from({ length: last + 1 }, (_, minute) => {
    const i = Math.max(
      1,
      points.findIndex(([t]) => t >= minute),
    )
    const [[t0, x0], [t1, x1]] = [points[i - 1]!, points[i]!]
    return { minute, coreC: x0 + ((x1 - x0) * (minute - t0)) / (t1 - t0) }
  })
}
const dropped = (log: readonly Reading[], from: number, to: number) =>
  log.filter((r) => r.minute <= from || r.minute >= to)
const emptied = (log: readonly Reading[], from: number, to: number) =>
  log.map((r) => (r.minute <= from || r.minute >= to ? r : { minute: r.minute, coreC: null }))
const meat = { organism: 'salmonella' as const, product: { species: 'meat' as const } }
const comeUp = (log: readonly Reading[]) =>
  lethality({ ...meat, log }).findings.find((f) => f.rule === 'us.fsis.lethality.come-up')!
const csv = (log: readonly Reading[], house: (minute: number) => number = () => 2): Uint8Array[] => {
  const rows = log.map(
    (r) =>
      `${new Date(Date.UTC(2026, 10, 20, 8) + r.minute * 60_000).toISOString().slice(0, 19).replace('T', ' ')};${r.coreC?.toFixed(2) ?? ''};${house(r.minute)}`,
  )
  return [new TextEncoder().encode(['Time;Core °C;House °C', ...rows].join('\n'))]
}

describe('a hole in the chill', () => {
  const whole = course([
    [0, 72],
    [20, 54],
    [600, 3],
    [640, 3],
  ])
  const quick = course([
    [0, 72],
    [20, 55],
    [60, 26],
    [200, 3.5],
    [260, 3],
  ])

  it('that covers both edges of a stage may have held all of its time: no option passes, whether rows or readings are missing', () => {
    for (const log of [dropped(whole, 20, 600), emptied(whole, 20, 600)]) {
      const { findings, summary } = chill({ log, product: cured, toleranceC: 0.1 })
      expect(findings.length).toBeGreaterThanOrEqual(8)
      expect(findings.map((f) => [f.rule, f.verdict])).toEqual(findings.map((f) => [f.rule, 'cannot-tell']))
      expect(findings[0]!.because).toMatch(
        /0 to \d+(\.\d+)? min are possible; there is no reading .* from minute 20 to 600/,
      )
      expect(summary.verdict).toBe('cannot-tell')
    }
  })

  it('that covers the lower edge of the first stage counts to its end for that stage and from its start for the next', () => {
    const [first] = chill({ log: dropped(quick, 50, 400), product: { cured: false }, toleranceC: 0 }).findings
    expect(first!.verdict).toBe('cannot-tell')
    const long = course([
      [0, 72],
      [20, 55],
      [60, 26.8],
      [500, 26],
      [700, 3],
    ])
    const late = chill({ log: dropped(long, 100, 140), product: { cured: false }, toleranceC: 0 }).findings
    expect(late[0]!.verdict).toBe('fail')
  })

  it('that covers no edge of a stage leaves a stage over its time failed', () => {
    const slow = course([
      [0, 72],
      [20, 55],
      [60, 26],
      [500, 10],
      [900, 3],
    ])
    const of = (log: readonly Reading[]) => chill({ log, product: { cured: false } }).findings[0]!.verdict
    expect(of(slow)).toBe('fail')
    expect(of(dropped(slow, 200, 260))).toBe('fail')
    expect(of(quick)).toBe('pass')
    expect(of(dropped(quick, 100, 130))).toBe('cannot-tell')
  })

  it('of one lost reading keeps every option as it was', () => {
    const verdicts = (log: readonly Reading[]) =>
      chill({ log, product: cured, toleranceC: 0.1 }).findings.map((f) => [f.rule, f.verdict])
    expect(verdicts(emptied(quick, 99, 101))).toEqual(verdicts(quick))
    expect(verdicts(emptied(quick, 58, 60))).toEqual(verdicts(quick))
  })

  it('of a log that streams by gives the same', async () => {
    const out = await judgeLog(csv(emptied(whole, 20, 600)), { ...meat, cooling: cured, toleranceC: 0.1 })
    expect(out.chill!.summary.verdict).toBe('cannot-tell')
    expect(out.chill!.logGrowth).toBeGreaterThan(1)
  })
})

describe('a hole in the come-up', () => {
  const cook = course([
    [0, 6],
    [10, 6],
    [490, 56],
    [522, 72],
    [550, 72],
  ])
  it('that hides all of it leaves it open: 0 to 480 min', () => {
    for (const log of [dropped(cook, 10, 490), emptied(cook, 10, 490)]) {
      const found = comeUp(log)
      expect(found).toMatchObject({ verdict: 'cannot-tell', weight: 'limit' })
      expect(found.because).toMatch(/^0 to 480 min .* from minute 10 to 490/)
    }
  })
  it('that hides one end of a short one does no harm', () => {
    const short = course([
      [0, 6],
      [60, 66],
      [80, 72],
    ])
    expect(comeUp(dropped(short, 3, 9)).verdict).toBe('pass')
    expect(comeUp(dropped(short, 2, 70)).verdict).toBe('cannot-tell')
  })
  it('fails as a limit where even the shortest is over six hours', () => {
    expect(
      comeUp(
        course([
          [0, 9],
          [500, 56],
          [520, 72],
        ]),
      ),
    ).toMatchObject({ verdict: 'fail', weight: 'limit' })
  })
})

describe('readings taken by hand', () => {
  const verdict = (log: readonly Reading[], more = {}) => lethality({ ...meat, log, ...more }).findings[0]!.verdict
  it('hold between two of one temperature up to an hour apart, and prove nothing beyond', () => {
    expect(
      verdict([
        { minute: 0, coreC: 60 },
        { minute: 12, coreC: 60 },
      ]),
    ).toBe('pass')
    expect(
      verdict([
        { minute: 0, coreC: 60 },
        { minute: 60, coreC: 60 },
      ]),
    ).toBe('pass')
    expect(
      verdict([
        { minute: 0, coreC: 60 },
        { minute: 61, coreC: 60 },
      ]),
    ).toBe('cannot-tell')
  })
  it('are not joined over more than an hour from 5 to 75 °C: no reduction and no come-up', () => {
    const log = [
      { minute: 0, coreC: 5 },
      { minute: 300, coreC: 75 },
    ]
    expect(lethality({ ...meat, log }).logReduction).toBe(0)
    expect(comeUp(log).verdict).toBe('cannot-tell')
    expect(lethality({ ...meat, log, maxGapMinutes: 300 }).logReduction).toBeGreaterThan(1)
  })
  it('with an empty one between break there, in a log and in a stream alike', async () => {
    const log: Reading[] = [
      { minute: 0, coreC: 5 },
      { minute: 60, coreC: 66 },
      { minute: 61, coreC: null },
      { minute: 90, coreC: null },
      { minute: 91, coreC: 66 },
      { minute: 92, coreC: 60 },
    ]
    const whole = lethality({ ...meat, log })
    expect(whole.findings[0]!.verdict).toBe('cannot-tell')
    const stream = await judgeLog(csv(log), { ...meat, cookOnly: true })
    expect(stream.findings).toEqual(whole.findings)
    expect(stream.lethality!.logReduction).toBeCloseTo(whole.logReduction, 9)
  })
  it('two of a chill, hours apart, show no stage', () => {
    const log = [
      { minute: 0, coreC: 70 },
      { minute: 200, coreC: 4 },
    ]
    expect(chill({ log, product: { cured: false } }).summary.verdict).toBe('cannot-tell')
  })
})

describe('a core that warms again in the chill', () => {
  const at = (top: number, toleranceC = 0.2) =>
    chill({
      log: course([
        [0, inC(160)],
        [10, inC(130)],
        [60, inC(75)],
        [80, inC(top)],
        [100, inC(75)],
        [300, inC(40) - 0.5],
        [340, inC(40) - 2],
      ]),
      product: { cured: false },
      toleranceC,
    }).findings[0]!
  it('over the upper temperature of a stage it had entered fails that stage: it did not cool continuously', () => {
    expect(at(90)).toMatchObject({ verdict: 'fail' })
    expect(at(90).because).toContain('did not cool continuously')
  })
  it('by less than a degree and the thermometer error is no warming', () => expect(at(80.5).verdict).toBe('pass'))
})

describe('what the findings say', () => {
  const log = course([
    [0, 8],
    [60, 72],
    [70, 72],
  ])
  it('a thermometer error nobody gave is named as counted for nothing', () => {
    const said = (toleranceC?: number) =>
      lethality({ ...meat, log, ...(toleranceC === undefined ? {} : { toleranceC }) }).findings[0]!.because
    expect(said()).toContain("the thermometer's error is not given and counts as nothing")
    expect(said(0.5)).not.toContain('not given')
    const cooled = chill({ log, product: { cured: false } })
    expect(cooled.stabilization.because).toContain('not given and counts as nothing')
  })
  it('without a species a poultry table that is missed beside a met meat table cannot be told, and says if', () => {
    const { findings } = lethality({
      organism: 'salmonella',
      log: [
        { minute: 0, coreC: 60 },
        { minute: 13, coreC: 60 },
      ],
    })
    const chicken = findings.find((f) => f.rule.includes('chicken'))!
    expect(chicken).toMatchObject({ verdict: 'cannot-tell', weight: 'advice' })
    expect(chicken.because).toMatch(/^if it is chicken: /)
    expect(findings.find((f) => f.rule === 'us.fsis.lethality.meat.6.5-log')!.verdict).toBe('pass')
  })
  it('options that do not speak for the product are named with the figure that rules them out', () => {
    const { notApplicable } = chill({ log, product: { cured: true, nitritePpm: 99 } })
    const third = notApplicable.find((o) => o.rule === 'us.fsis.cooling.option-3')!
    expect(third.because).toBe('asks at least 100 ppm of ingoing sodium nitrite; 99 is given')
    expect(chill({ log, product: { cured: false } }).notApplicable.map((o) => o.because)).toContain(
      'for cured products only',
    )
  })
  it('a missed humidity option is a limit', () => {
    const found = lethality({ ...meat, log, humidity: { option: 1, cookMinutes: 70, heldMinutes: 5 } }).findings
    expect(found.find((f) => f.rule === 'us.fsis.lethality.humidity')).toMatchObject({
      verdict: 'fail',
      weight: 'limit',
    })
  })
})

describe('a come-up that cannot be told', () => {
  const cook = (startC: number) =>
    course([
      [0, startC],
      [10, startC],
      [490, 56],
      [540, 72],
      [570, 72],
    ])

  it.each([6, 11])('stops a release where a hole may hide more than six hours, from %d °C', (startC) => {
    expect(comeUp(dropped(cook(startC), 10, 490))).toMatchObject({ verdict: 'cannot-tell', weight: 'limit' })
  })

  it('leaves a whole log never passed by the stream either', async () => {
    const log = [
      ...dropped(cook(6), 10, 490),
      ...course([
        [0, 72],
        [60, 20],
        [150, 3],
      ])
        .slice(1)
        .map((r) => ({ ...r, minute: r.minute + 570 })),
    ]
    const judged = await judgeLog(csv(log), {
      product: { species: 'meat' },
      cooling: cured,
      humidity: { exempt: 'moisture-holding-casing' },
      toleranceC: 0.5,
    })
    expect(judged.verdict).toBe('cannot-tell')
  })

  it('is advice where only the time before the log began is unknown and the log itself is short', () => {
    expect(
      comeUp(
        course([
          [0, 12],
          [60, 60],
          [90, 72],
        ]),
      ),
    ).toMatchObject({ verdict: 'cannot-tell', weight: 'advice' })
  })
})
