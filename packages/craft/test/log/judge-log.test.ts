import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { chill } from '../../src/heat/chill.ts'
import { lethality } from '../../src/heat/lethality.ts'
import { judgeLog, type JudgeOptions } from '../../src/log/judge-log.ts'
import { readLog } from '../../src/log/read.ts'
import { createThinner } from '../../src/log/thin.ts'

// Logger files of the invented kitchen: simulated, with noise.
const bytes = (name: string): Uint8Array => readFileSync(new URL(`../../../../examples/logs/${name}`, import.meta.url))
const ring: JudgeOptions = {
  product: { species: 'meat', target: '6.5-log' },
  cooling: { cured: true, nitritePpm: 146, erythorbatePpm: 500, saltPct: 1.7, waterPct: 60 },
  humidity: { exempt: 'moisture-holding-casing' },
  toleranceC: 0.5,
}
const judged = (name: string, more: JudgeOptions = {}) => judgeLog([bytes(name)], { ...ring, ...more })
const verdictOf = (out: Awaited<ReturnType<typeof judgeLog>>, rule: string) =>
  out.findings.find((f) => f.rule === rule)?.verdict

describe('the files of the kitchen', () => {
  it('each says in its first line that it is simulated', () => {
    for (const name of [
      'ring-0117-cook-and-chill.csv',
      'ring-0118-slow-chill.csv',
      'three-probes-fahrenheit.csv',
      'probe-fell-out.csv',
    ])
      expect(new TextDecoder().decode(bytes(name))).toMatch(/^Simulated data with noise, invented kitchen/)
  })

  it('the good cook and chill passes', async () => {
    const out = await judged('ring-0117-cook-and-chill.csv')
    expect(out.questions).toEqual([])
    expect(out.verdict).toBe('pass')
    expect(out.series.map((s) => [s.name, s.role])).toEqual([
      ['Core', 'core'],
      ['House', 'house'],
    ])
  })

  it('a good file passes nothing while the product is not said, and its cook alone only where that is asked', async () => {
    const uncooled = { ...ring }
    delete (uncooled as { cooling?: unknown }).cooling
    const file = [bytes('ring-0117-cook-and-chill.csv')]
    expect((await judgeLog(file, {})).verdict).toBe('cannot-tell')
    const open = await judgeLog(file, uncooled)
    expect(open.verdict).toBe('cannot-tell')
    const chilled = open.findings.find((f) => f.rule === 'us.fsis.stabilization')!
    expect(chilled).toMatchObject({ verdict: 'cannot-tell', weight: 'limit' })
    expect(chilled.because).toMatch(
      /whether the product is cured is not said: without cure it is met .*; cured it is met/,
    )
    expect(chilled.settle).toMatch(/say whether the product is cured/)
    expect(open.chill!.summary).toMatchObject({ verdict: 'cannot-tell', because: chilled.because })
    expect((await judgeLog(file, { ...uncooled, cookOnly: true })).verdict).toBe('pass')
  })

  it('the slow chill fails though its cook passes', async () => {
    const out = await judged('ring-0118-slow-chill.csv')
    expect(verdictOf(out, 'us.fsis.lethality.meat.6.5-log')).toBe('pass')
    expect(verdictOf(out, 'us.fsis.stabilization')).toBe('fail')
    expect(out.verdict).toBe('fail')
    expect(out.chill!.logGrowth).toBeGreaterThan(1)
  })

  it('a slow chill of a product of which nobody said whether it is cured is judged both ways, and never left out', async () => {
    const { cooling: _, ...unsaid } = ring
    const slow = await judgeLog([bytes('ring-0118-slow-chill.csv')], unsaid)
    const found = slow.findings.find((f) => f.rule === 'us.fsis.stabilization')!
    expect(found).toMatchObject({ verdict: 'cannot-tell', weight: 'limit' })
    expect(found.because).toMatch(/without cure none of the 2 options that apply is met; cured it cannot be told yet/)
    expect(found.settle).toMatch(/say whether the product is cured/)
    expect(slow.findings.find((f) => f.rule === 'us.fsis.cooling.option-1')!.verdict).toBe('fail')
    expect(slow.findings.find((f) => f.rule === 'us.fsis.cooling.option-4')).toMatchObject({
      verdict: 'cannot-tell',
      because: expect.stringContaining('whether it is cured'),
    })
    expect(slow.chill!.summary.verdict).toBe('cannot-tell')
    // Over in every option, cured or not: 21 h from 48.9 to 4.4 °C alone.
    const rows = Array.from({ length: 230 }, (_r, i) => `${i * 10};${Math.max(3, 72 - i * 0.35).toFixed(2)}`)
    const text = ['minute;core °C', ...rows].join('\n')
    const lost = await judgeLog([new TextEncoder().encode(text)], { ...unsaid, answers: { timeUnit: 'minutes' } })
    expect(lost.questions).toEqual([])
    expect(lost.findings.find((f) => f.rule === 'us.fsis.stabilization')).toMatchObject({
      verdict: 'fail',
      because: expect.stringContaining('cured or not'),
    })
  })

  it('three probes in °F with decimal commas: coldest for the cook, worst for each rule, named', async () => {
    const out = await judged('three-probes-fahrenheit.csv')
    expect(out.probes.map((p) => p.name)).toEqual(['Core 1', 'Core 2', 'Core 3'])
    expect(out.lethality!.logReduction).toBe(Math.min(...out.probes.map((p) => p.logReduction)))
    expect(out.verdict).toBe('pass')
    expect(out.findings[0]!.because).toMatch(/^Core \d: /)
  })

  it('the probe that fell out leaves the chill open, with the minutes and the reason', async () => {
    const out = await judged('probe-fell-out.csv')
    expect(verdictOf(out, 'us.fsis.lethality.meat.6.5-log')).toBe('pass')
    expect(out.verdict).toBe('cannot-tell')
    expect(out.chill!.summary.because).toContain('the probe left the product from minute')
    expect(out.probes[0]!.holes[0]!.why).toBe('probe-out')
  })
})

describe('judging a stream', () => {
  it('gives what the calculations give on the whole log', async () => {
    const name = 'ring-0117-cook-and-chill.csv'
    const log = readLog(bytes(name)).channels[0]!.series.map((p) => ({ minute: p.minute, coreC: p.tempC }))
    const out = await judged(name)
    const cook = lethality({
      log,
      organism: 'salmonella',
      product: ring.product!,
      humidity: ring.humidity!,
      toleranceC: 0.5,
    })
    const cooled = chill({ log, product: ring.cooling!, toleranceC: 0.5 })
    expect(out.findings).toEqual([...cook.findings, ...cooled.findings, cooled.stabilization])
    expect(out.lethality!.logReduction).toBeCloseTo(cook.logReduction, 9)
    expect(out.chill!.logGrowth).toBeCloseTo(cooled.perfringens.logGrowth, 9)
  })

  it('is the same however the bytes come', async () => {
    const all = bytes('three-probes-fahrenheit.csv')
    async function* pieces(): AsyncGenerator<Uint8Array> {
      for (let at = 0; at < all.length; at += 777) yield all.slice(at, at + 777)
    }
    expect(await judgeLog(pieces(), ring)).toEqual(await judgeLog([all], ring))
  })

  it('judges nothing while a question is open', async () => {
    const out = await judgeLog(
      [new TextEncoder().encode('time;core\n2026-03-04 10:00;70\n2026-03-04 10:01;71\n')],
      ring,
    )
    expect(out).toMatchObject({ verdict: 'cannot-tell', findings: [], questions: [{ about: 'unit' }] })
  })

  it('one of several probes falling out is cannot-tell: the worst decides', async () => {
    const rows = ['time;core 1 (°C);core 2 (°C)']
    for (let i = 0; i < 60; i++)
      rows.push(
        `2026-03-04 10:${String(i).padStart(2, '0')}:00;${(8 + i * 1.2).toFixed(1)};${i < 40 ? (8 + i * 1.2).toFixed(1) : 'OPEN'}`,
      )
    const out = await judgeLog([new TextEncoder().encode(rows.join('\n'))], { product: { species: 'meat' } })
    expect(out.probes.map((p) => p.findings[0]!.verdict)).toEqual(['pass', 'cannot-tell'])
    expect(out.findings[0]).toMatchObject({ verdict: 'cannot-tell' })
    expect(out.findings[0]!.because).toContain('core 2')
  })
})

it('a thinned series keeps the lowest and the highest reading, in order', () => {
  const thin = createThinner(64)
  for (let i = 0; i < 100_000; i++) thin.push(i, i === 77_777 ? 99 : i === 33_333 ? -9 : 20 + (i % 7) / 10)
  const points = thin.points()
  expect(points.length).toBeLessThanOrEqual(66)
  expect(points).toContainEqual({ minute: 77_777, tempC: 99 })
  expect(points).toContainEqual({ minute: 33_333, tempC: -9 })
  expect(points.every((p, i) => i === 0 || p.minute > points[i - 1]!.minute)).toBe(true)
})
