import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { onTestFinished } from 'vitest'
import { openLedger, type Draft, type Ledger } from '../src/index.ts'

/** A folder of its own for one test, gone when it ends. */
export function folder(): string {
  const path = mkdtempSync(join(tmpdir(), 'ledger-'))
  onTestFinished(() => rmSync(path, { recursive: true, force: true }))
  return path
}

export async function open(
  where: string = folder(),
  now: () => string = () => '2026-03-02T08:00:00.000Z',
): Promise<Ledger> {
  const ledger = await openLedger({ folder: where, now })
  onTestFinished(() => ledger.close())
  return ledger
}

const by = 'ada'
const hex = 'a'.repeat(64)

/** Drafts of an invented kitchen, each a valid one of its kind. */
export const draft = {
  kitchen: {
    kind: 'kitchen.set',
    by,
    body: { name: 'Hollow Lane Kitchen', jurisdictions: ['GB'], units: 'metric', demo: true },
  },
  person: { kind: 'person.add', by, body: { person: by, name: 'Ada', role: 'owner' } },
  scale: {
    kind: 'instrument.add',
    by,
    body: { instrument: 'S1', type: 'scale', name: 'Bench scale', readabilityG: 1, checkEveryDays: 30 },
  },
  check: (on: string, reading: number): Draft => ({
    kind: 'instrument.check',
    by,
    body: { instrument: 'S1', method: 'test-load', reference: 1000, reading, unit: 'g', tolerance: 2, on },
  }),
  lot: (lot = 'PORK-1', kg = 50): Draft => ({
    kind: 'lot.receive',
    by,
    body: { lot, material: 'pork-shoulder', supplier: 'Meadow End Farm', kg, on: '2026-03-01', useBy: '2026-03-06' },
  }),
  adjust: (lot: string, kg: number, note?: string): Draft => ({
    kind: 'lot.adjust',
    by,
    body: { lot, kg, reason: 'count', on: '2026-03-02', ...(note === undefined ? {} : { note }) },
  }),
  recipe: (version = 1): Draft => ({
    kind: 'recipe.save',
    by,
    body: {
      recipe: 'BREAKFAST',
      version,
      body: {
        name: 'Breakfast link',
        kind: 'fresh',
        smoked: false,
        readyToEat: false,
        meat: [{ material: 'pork-shoulder', pct: 100 }],
        additions: [{ material: 'salt', pct: 1.8 }],
      },
    },
  }),
  plan: (batch = 'B-1', lot = 'PORK-1'): Draft => ({
    kind: 'batch.plan',
    by,
    body: {
      batch,
      recipe: 'BREAKFAST',
      version: 1,
      on: '2026-03-02',
      meatKg: 20,
      jurisdictions: ['GB'],
      lines: [
        { line: 'meat', material: 'pork-shoulder', lot, targetKg: 20, scale: 'S1' },
        { line: 'salt', material: 'salt', targetKg: 0.36 },
      ],
    },
  }),
  weigh: (batch = 'B-1', line = 'meat', kg = 20): Draft => ({ kind: 'batch.weigh', by, body: { batch, line, kg } }),
  decide: (batch = 'B-1', decision: 'release' | 'hold' = 'release'): Draft => ({
    kind: 'batch.decide',
    by,
    body: { batch, decision, reasons: ['looked at'], signed: hex, counts: { pass: 1, fail: 0, cannotTell: 0 } },
  }),
  pack: (batch = 'B-1', pack = 'P-1', count = 40): Draft => ({
    kind: 'batch.pack',
    by,
    body: { batch, pack, count, totalKg: 19, on: '2026-03-02', useBy: '2026-03-09' },
  }),
  ship: (pack = 'P-1', count = 10, to = 'Corner shop'): Draft => ({
    kind: 'pack.ship',
    by,
    body: { pack, to, count, on: '2026-03-02' },
  }),
  withdraw: (entry: number, why = 'entered twice'): Draft => ({ kind: 'entry.withdraw', by, body: { entry }, why }),
} as const satisfies Record<string, Draft | ((...args: never[]) => Draft)>

/** Kitchen, person, scale, one lot, one recipe: what a first batch needs. */
export const ready: readonly Draft[] = [draft.kitchen, draft.person, draft.scale, draft.lot(), draft.recipe()]
