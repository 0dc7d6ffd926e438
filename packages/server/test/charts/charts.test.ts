import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Draft } from '@forcemeat/ledger'
import type { BatchJudgement } from '@forcemeat/rulebook/batch/judge-batch'
import { allRules } from '@forcemeat/rulebook/catalogue'
import { fillWithDemo } from '../../src/demo/fill.ts'
import { fatLimit, optionOf, phLimit } from '../../src/charts/limits.ts'
import type { KitchenChart } from '../../src/charts/kitchen.ts'
import { openHouse, smallKitchen, type House } from '../support.ts'

const by = 'ana'
const chartsOf = async (house: House, recipe: string): Promise<Record<string, KitchenChart>> => {
  const { body } = await house.ask('GET', `/api/charts/${recipe}`)
  return Object.fromEntries((body['charts'] as KitchenChart[]).map((c) => [c.name, c]))
}

describe('control charts of a recipe', () => {
  let house: House
  const packed = [18, 17.8, 18.2, 18.1, 17.9, 18, 18.1, 17.9, 18.2, 12]
  beforeAll(async () => {
    house = await openHouse()
    const batches = packed.flatMap((totalKg, i): Draft[] => {
      const batch = `R-${String(i).padStart(2, '0')}`
      const plan = smallKitchen.at(-1) as Extract<Draft, { kind: 'batch.plan' }>
      return [
        {
          kind: 'lot.receive',
          by,
          body: { lot: `L-${i}`, material: 'pork-shoulder-trim', kg: 20, on: '2026-11-20', fatPct: 24 + (i % 2) },
        },
        {
          ...plan,
          body: {
            ...plan.body,
            batch,
            lines: [{ line: 'meat', material: 'pork-shoulder-trim', lot: `L-${i}`, targetKg: 20 }],
          },
        },
        { kind: 'batch.weigh', by, body: { batch, line: 'meat', kg: 20 } },
        ...[110, 112].map((value): Draft => ({
          kind: 'batch.measure',
          by,
          body: { batch, step: 'stuff', what: 'weight', value, unit: 'g', taken: '2026-11-21T09:00:00Z' },
        })),
        { kind: 'batch.pack', by, body: { batch, pack: `K-${i}`, count: 10, totalKg, on: '2026-11-22' } },
      ]
    })
    await house.ledger.append([...smallKitchen, ...batches])
  })
  afterAll(() => house.close())

  it('show yield, fat and link weight over batches in order, and ring the batch that lost too much', async () => {
    const charts = await chartsOf(house, 'HUNTER')
    expect(charts['yield']!.points.map((p) => p.value)).toEqual(
      packed.map((kg) => Number(((100 * kg) / 20).toFixed(6))),
    )
    expect(charts['yield']!.chart!.signals).toContainEqual(expect.objectContaining({ at: 9, rule: 'beyond-limit' }))
    expect(charts['fat']!.points.slice(0, 2).map((p) => p.value)).toEqual([24, 25])
    expect(new Set(charts['link-weight']!.points.map((p) => p.value))).toEqual(new Set([111]))
    expect(charts['end-ph']!.points).toEqual([])
    expect(charts['end-ph']!.chart).toBeUndefined()
  })

  it('hold yield and link weight against the limits the kitchen set itself for the recipe', async () => {
    expect((await chartsOf(house, 'HUNTER'))['yield']!.limit).toBeUndefined()
    const kitchen = smallKitchen.find((d) => d.kind === 'kitchen.set') as Extract<Draft, { kind: 'kitchen.set' }>
    const set = async (byRecipe: object[]) =>
      house.ask('POST', '/api/entries', {
        kind: 'kitchen.set',
        by,
        corrects: (await house.ledger.kitchen())!.seq,
        why: 'what we let pass',
        body: { ...kitchen.body, ownLimits: { byRecipe } },
      })
    const other = { recipe: 'OTHER', yieldMinPct: 50 }
    expect((await set([other, { recipe: 'HUNTER', yieldMinPct: 85, linkMinG: 105, linkMaxG: 115 }])).status).toBe(201)
    const charts = await chartsOf(house, 'HUNTER')
    expect(charts['yield']!.limit).toEqual({ own: 'the least yield this kitchen lets pass', lowest: 85 })
    expect(charts['yield']!.settle).toBeUndefined()
    expect(charts['yield']!.chart!.capability!.verdict).not.toBe('capable')
    expect(charts['link-weight']!.limit).toEqual({
      own: 'the mean link weight this kitchen lets pass',
      lowest: 105,
      highest: 115,
    })
    for (const bad of [
      [{ recipe: 'HUNTER', linkMinG: 115, linkMaxG: 105 }],
      [{ recipe: 'HUNTER' }],
      [other, other],
      [{ recipe: 'HUNTER', yieldMinPct: -1 }],
    ]) {
      const { status, body } = await set(bad)
      expect([status, JSON.stringify(body['faults'])], JSON.stringify(bad)).toEqual([
        400,
        expect.stringMatching(/body\.ownLimits\.byRecipe\[.*allowed/),
      ])
    }
  })

  it('of a recipe that is not there are 404, and a cold mark out of range is refused', async () => {
    expect((await house.ask('GET', '/api/charts/NONE')).status).toBe(404)
    expect((await house.ask('GET', '/api/charts/HUNTER?coldC=99')).status).toBe(400)
  })
})

describe('the invented kitchen', () => {
  it('has come-up and chill times off its recorded curves', async () => {
    const house = await openHouse()
    await fillWithDemo(house.ledger)
    const charts = await chartsOf(house, 'smoked-ring')
    expect(charts['come-up']!.points.map((p) => p.batch)).toEqual(['RING-0117', 'RING-0118'])
    expect(charts['come-up']!.chart, 'limits of two batches say nothing').toBeUndefined()
    const [good, slow] = charts['chill-time']!.points
    expect(good!.value).toBeGreaterThan(20)
    if (slow) expect(slow.value).toBeGreaterThan(good!.value)
    // Held against the limit of the rule that measures the same minutes (FSIS-GD-2021-14: 6 hours of come-up).
    expect(charts['come-up-window']!.limit).toEqual({ rule: 'us.fsis.lethality.come-up', highest: 360 })
    expect(charts['come-up-window']!.points[0]!.value).toBeCloseTo(82.2, 0)
    expect(charts['chill-share']!.limit).toMatchObject({ highest: 100 })
    expect(charts['chill-share']!.points[0]!.value).toBeLessThan(100)
    expect(charts['yield']!.limit, 'nothing says what a yield must be').toBeUndefined()
    expect(charts['yield']!.settle).toContain('least yield you accept')
    expect(charts['chill-share']!.settle, 'it has a limit').toBeUndefined()
    await house.close()
  })
})

describe('capability against a limit', () => {
  const chart = (over: Partial<BatchJudgement>) => ({ findings: [], ...over }) as unknown as BatchJudgement
  const finding = (more: object) => ({
    title: '',
    unit: 'min',
    weight: 'advice',
    verdict: 'pass',
    source: { mark: 'seen' },
    ...more,
  })

  const fatBatch = (raw: number, finished: number, ...findings: object[]) =>
    chart({
      findings: findings as never,
      computed: { measures: { rawFatPct: { value: raw }, fatPct: { value: finished } } } as never,
    })
  const fatRule = (more: object) =>
    finding({ unit: '%', weight: 'limit', source: { mark: 'seen' }, title: 'Fat, frankfurter', ...more })

  it('of fat takes the figure the rule measures: 9 CFR 319.180 limits the finished product, not the mix', () => {
    const ruled = fatRule({ rule: 'us.319.180.a.fat', measured: 31, limit: 30, margin: -1 })
    expect(fatLimit(fatBatch(28, 31, ruled))).toEqual({
      basis: 'fatPct',
      limit: { rule: 'us.319.180.a.fat', highest: 30 },
    })
    expect(fatLimit(fatBatch(28, 28, { ...ruled, measured: 28, margin: 2 })).basis).toBe('rawFatPct')
  })

  it('of fat is a most, however wide the interval its margin is of', () => {
    const wide = fatRule({ rule: 'f', measured: 28, limit: 30, margin: -0.5 })
    expect(fatLimit(fatBatch(28, 31, wide)).limit).toEqual({ rule: 'f', highest: 30 })
    const fats = allRules().filter((r) => r.title.startsWith('Fat, ') && r.values.some((v) => v.min !== undefined))
    expect(fats, 'a rule of fat with a least would be charted upside down').toEqual([])
  })

  it('of fat is not that of fat and water together, nor of the fat without the cheese', () => {
    const both = fatRule({ rule: 'b', title: 'Fat and added water together, x', measured: 28, limit: 40, margin: 12 })
    const cheese = fatRule({ rule: 'c', title: 'Fat, the cheese left out', measured: 29.5, limit: 30, margin: 0.5 })
    expect(fatLimit(fatBatch(28, 31, both, cheese))).toEqual({ basis: 'rawFatPct' })
  })

  it('of fat is the recipe’s own on the mix where no rule names one', () => {
    expect(fatLimit(fatBatch(28, 31), [{ of: 'fat', minPct: 24, maxPct: 30 }])).toEqual({
      basis: 'rawFatPct',
      limit: { own: 'the limit of the recipe', highest: 30, lowest: 24 },
    })
    expect(fatLimit(fatBatch(28, 31), [{ of: 'water', maxPct: 30 }])).toEqual({ basis: 'rawFatPct' })
  })

  it('of a limit from memory is marked as unread', () => {
    const memory = fatRule({ rule: 'm', source: { mark: 'from-memory' }, measured: 28, limit: 30, margin: 2 })
    expect(fatLimit(fatBatch(28, 31, memory)).limit).toEqual({ rule: 'm', highest: 30, unread: true })
  })

  it('of pH takes the limit of a rule before the target of the recipe', () => {
    const ruled = finding({ rule: 'x.degree-hours', unit: 'pH', measured: 5.1, limit: 5.3, margin: 0.2 })
    expect(phLimit(chart({ findings: [ruled] as never }), 4.9)).toEqual({ rule: 'x.degree-hours', highest: 5.3 })
    expect(phLimit(chart({}), 4.9)).toEqual({ own: 'the target of the recipe', highest: 4.9 })
    expect(phLimit(chart({}), undefined)).toBeUndefined()
  })

  it('of the chill goes by the option most batches meet, and among equals the one with the most to spare', () => {
    const option = (id: string, measured: number, verdict = 'pass') =>
      finding({ rule: `us.fsis.cooling.${id}`, measured, limit: 100, verdict })
    const batches = [
      chart({ findings: [option('a', 20), option('b', 60), option('c', 10)] as never }),
      chart({ findings: [option('a', 30), option('b', 60), option('c', 110, 'fail')] as never }),
    ]
    expect(optionOf(batches)).toBe('us.fsis.cooling.a')
    expect(optionOf([chart({})])).toBeUndefined()
  })
})
