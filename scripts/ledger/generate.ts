// Seeded data for durability and speed trials: the same seed gives the same drafts. Invented codes only.
import type { Draft } from '@forcemeat/ledger/facts'
import { seeded } from './seeded.ts'

const by = 'ada'

/** The entries a kitchen needs before its first batch. */
export const beginning: readonly Draft[] = [
  {
    kind: 'kitchen.set',
    by,
    body: { name: 'Hollow Lane Kitchen', jurisdictions: ['GB'], units: 'metric', demo: true },
  },
  { kind: 'person.add', by, body: { person: by, name: 'Ada', role: 'owner' } },
  {
    kind: 'instrument.add',
    by,
    body: { instrument: 'S1', type: 'scale', name: 'Bench scale', readabilityG: 1, checkEveryDays: 30 },
  },
  {
    kind: 'recipe.save',
    by,
    body: {
      recipe: 'LINK',
      version: 1,
      body: {
        name: 'Breakfast link',
        kind: 'fresh',
        smoked: false,
        readyToEat: false,
        meat: [{ material: 'pork-shoulder', pct: 100 }],
        additions: [{ material: 'salt', pct: 1.8 }],
      },
    },
  },
]

const day = (n: number): string => new Date(Date.UTC(2026, 0, 1 + (n % 360))).toISOString().slice(0, 10)

/** Lot `n` of a run. */
export const lot = (n: number, random: () => number): Draft => ({
  kind: 'lot.receive',
  by,
  body: {
    lot: `L${n}`,
    material: random() < 0.7 ? 'pork-shoulder' : 'pork-back-fat',
    supplier: `Farm ${Math.floor(random() * 40)}`,
    kg: Math.round(50_000 + random() * 150_000) / 1000,
    on: day(n),
    useBy: day(n + 5),
  },
})

/** Batch `n` with its sheet drawing on four lots, every line weighed, released, packed and sent: `4 + 4` movements and facts. */
export function* batch(n: number, lots: number, random: () => number): Generator<Draft> {
  const lines = [0, 1, 2, 3].map((i) => ({
    line: `m${i}`,
    material: 'pork-shoulder',
    lot: `L${Math.floor(random() * lots)}`,
    targetKg: 0.25,
    scale: 'S1',
  }))
  const code = `B${n}`
  yield {
    kind: 'batch.plan',
    by,
    body: { batch: code, recipe: 'LINK', version: 1, on: day(n), meatKg: 1, jurisdictions: ['GB'], lines },
  }
  for (const { line } of lines)
    yield {
      kind: 'batch.weigh',
      by,
      body: { batch: code, line, kg: Math.round(200 + random() * 100) / 1000, instrument: 'S1', note: 'trial' },
    }
  yield {
    kind: 'batch.decide',
    by,
    body: {
      batch: code,
      decision: 'release',
      reasons: ['trial'],
      signed: 'a'.repeat(64),
      counts: { pass: 1, fail: 0, cannotTell: 0 },
    },
  }
  yield { kind: 'batch.pack', by, body: { batch: code, pack: `P${n}`, count: 10, totalKg: 0.95, on: day(n) } }
  yield {
    kind: 'pack.ship',
    by,
    body: { pack: `P${n}`, to: `Shop ${Math.floor(random() * 200)}`, count: 4, on: day(n) },
  }
}

/** A run of about `count` drafts: one lot in five entries, batches in between. */
export function* history(count: number, seed = 1): Generator<Draft> {
  const random = seeded(seed)
  let [made, lots, batches] = [0, 0, 0]
  for (const d of beginning) {
    yield d
    made += 1
  }
  while (made < count) {
    for (let i = 0; i < 3; i += 1) {
      yield lot(lots, random)
      lots += 1
      made += 1
    }
    for (const d of batch(batches, lots, random)) {
      yield d
      made += 1
    }
    batches += 1
  }
}
