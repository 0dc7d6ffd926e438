import type { Draft, Ledger } from '@forcemeat/ledger'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { watchDoubts } from '../../src/judge/doubts.ts'
import { openHouse, smallKitchen, type House } from '../support.ts'

const by = 'ana'
const today = '2026-12-01'
const daysAgo = (days: number): string => new Date(Date.parse(today) - days * 86_400_000).toISOString().slice(0, 10)

type Recipe = Extract<Draft, { kind: 'recipe.save' }>['body']['body']
const hunter = (smallKitchen.find((d) => d.kind === 'recipe.save') as Extract<Draft, { kind: 'recipe.save' }>).body.body
const save = (recipe: string, change: Partial<Recipe>): Draft => ({
  kind: 'recipe.save',
  by,
  body: { recipe, version: 1, body: { ...hunter, name: recipe, ...change } },
})
const lines = [
  { line: 'meat', material: 'pork-shoulder-trim', targetKg: 20, scale: 'BENCH-30' },
  { line: 'salt', material: 'salt', targetKg: 0.36, scale: 'SPICE-3' },
  { line: 'cure', material: 'curing-salt-6.25-nitrite', targetKg: 0.048, scale: 'BENCH-30' },
]

/** A batch that went out on scales nobody had checked: by what is known now it cannot be told, whatever it is judged by. */
const out = (batch: string, recipe: string, on: string, more: typeof lines = []): Draft[] => [
  {
    kind: 'batch.plan',
    by,
    body: { batch, recipe, version: 1, on, meatKg: 20, jurisdictions: ['US'], lines: [...lines, ...more] },
  },
  ...[...lines, ...more].map((l): Draft => ({
    kind: 'batch.weigh',
    by,
    body: { batch, line: l.line, kg: l.targetKg, instrument: l.scale },
  })),
  {
    kind: 'batch.decide',
    by,
    body: {
      batch,
      decision: 'release',
      reasons: ['looked at'],
      signed: 'a'.repeat(64),
      counts: { pass: 1, fail: 0, cannotTell: 0 },
    },
  },
]

describe('batches looked at again', () => {
  let house: House
  let ledger: Ledger
  let doubts: ReturnType<typeof watchDoubts>
  beforeEach(async () => {
    house = await openHouse()
    ledger = house.ledger
    await ledger.append(smallKitchen.filter((d) => d.kind !== 'batch.plan'))
    doubts = watchDoubts(ledger)
  })
  afterEach(async () => {
    doubts.stop()
    await house.close()
  })
  const inDoubt = async () => (await doubts.list(today)).map((d) => d.batch)

  it('go back two years where it sours or dries by its recipe, whatever its kind is called', async () => {
    const soured = { targetPh: 5, stages: [{ hours: 24, tempC: 24 }] }
    await ledger.append([
      save('SEMI', { kind: 'cooked', ferment: soured }),
      save('DRIED', { kind: 'cooked', dry: { lossPct: 20 } }),
      ...out('SEMI-1', 'SEMI', daysAgo(200)),
      ...out('DRIED-1', 'DRIED', daysAgo(200)),
      ...out('COOKED-OLD', 'HUNTER', daysAgo(200)),
      ...out('COOKED-NEW', 'HUNTER', daysAgo(20)),
      ...out('SEMI-0', 'SEMI', daysAgo(800)),
    ])
    expect((await inDoubt()).toSorted()).toEqual(['COOKED-NEW', 'DRIED-1', 'SEMI-1'])
  })

  it('go back two years where a culture was weighed in, a chamber logged or a pH taken, though the recipe says nothing', async () => {
    const culture = { line: 'culture', material: 'starter-culture', targetKg: 0.01, scale: 'SPICE-3' }
    const file = await ledger.putFile(new TextEncoder().encode('time,Air °C\n2026-05-15T08:00Z,24\n'))
    await ledger.append([
      ...out('CULTURE', 'HUNTER', daysAgo(200), [culture]),
      ...out('LOGGED', 'HUNTER', daysAgo(200)),
      ...out('READ', 'HUNTER', daysAgo(200)),
      ...out('MIXED', 'HUNTER', daysAgo(200)),
      {
        kind: 'batch.curve',
        by,
        body: {
          batch: 'LOGGED',
          purpose: 'dry',
          file: file.sha256,
          fileName: 'air.csv',
          reading: {},
          channels: [{ column: 'Air °C', role: 'house' }],
        },
      },
    ])
    const ph = (batch: string, step: 'ferment' | 'mix'): Draft => ({
      kind: 'batch.measure',
      by,
      body: { batch, step, what: 'ph', value: 5.1, unit: 'pH', taken: `${daysAgo(199)}T08:00:00Z` },
    })
    expect((await inDoubt()).toSorted()).toEqual(['CULTURE', 'LOGGED'])
    // Heard of after the first look.
    await ledger.append([ph('READ', 'ferment'), ph('MIXED', 'mix')])
    expect((await inDoubt()).toSorted()).toEqual(['CULTURE', 'LOGGED', 'READ'])
  })

  it('are not cut off where more than a thousand were made since', async () => {
    await ledger.append([
      save('SEMI', { kind: 'cooked', ferment: { targetPh: 5 } }),
      ...out('SEMI-1', 'SEMI', daysAgo(300)),
    ])
    const many = Array.from({ length: 1010 }, (_, i): Draft[] => [
      {
        kind: 'batch.plan',
        by,
        body: {
          batch: `N-${i}`,
          recipe: 'HUNTER',
          version: 1,
          on: daysAgo(250),
          meatKg: 20,
          jurisdictions: ['US'],
          lines: [lines[0]!],
        },
      },
      { kind: 'batch.weigh', by, body: { batch: `N-${i}`, line: 'meat', kg: 20 } },
    ]).flat()
    for (let from = 0; from < many.length; from += 500) await ledger.append(many.slice(from, from + 500))
    expect(await inDoubt()).toEqual(['SEMI-1'])
  })
})
