// What an invented plant has before its first lot: people, scales, recipes, customers; and what goes into its batches.
import type { Draft } from '@forcemeat/ledger/facts'

export const meats = ['pork-shoulder', 'pork-belly', 'pork-back-fat', 'beef-chuck', 'beef-trim-80-20'] as const

export const shelf: readonly string[] = Array.from({ length: 20 }, (_, i) => `RECIPE-${i}`)

export type Addition = {
  readonly material: string
  /** Percent of the meat. */
  readonly pct: number
  readonly tubKg: number
  readonly supplier: string
  /** Share of the recipes that have it; all where absent. */
  readonly only?: number
}

/** A silo of salt lasts a thousand batches, a tub of spice some eighty. */
export const additions: readonly Addition[] = [
  { material: 'salt', pct: 1.8, tubKg: 7000, supplier: 'Salt Works' },
  { material: 'pepper-black', pct: 0.3, tubKg: 90, supplier: 'Spice House' },
  { material: 'curing-salt-6.25-nitrite', pct: 0.25, tubKg: 80, supplier: 'Salt Works', only: 0.6 },
  { material: 'garlic-powder', pct: 0.2, tubKg: 60, supplier: 'Spice House', only: 0.5 },
]

export function* plantBeginning(): Generator<Draft> {
  const by = 'owner-0'
  yield {
    kind: 'kitchen.set',
    by,
    body: { name: 'Long Reach Plant', jurisdictions: ['US'], units: 'metric', demo: true },
  }
  yield { kind: 'person.add', by, body: { person: by, name: 'Owner', role: 'owner' } }
  yield { kind: 'person.add', by, body: { person: 'checker-0', name: 'Checker', role: 'checker' } }
  for (let i = 0; i < 12; i += 1)
    yield { kind: 'person.add', by, body: { person: `hand-${i}`, name: `Hand ${i}`, role: 'maker' } }
  for (let i = 0; i < 8; i += 1)
    yield {
      kind: 'instrument.add',
      by,
      body: { instrument: `SCALE-${i}`, type: 'scale', name: `Scale ${i}`, readabilityG: 1, checkEveryDays: 30 },
    }
  yield {
    kind: 'instrument.add',
    by,
    body: { instrument: 'PROBE-0', type: 'thermometer', name: 'Probe', toleranceC: 0.5, checkEveryDays: 30 },
  }
  for (const recipe of shelf)
    yield {
      kind: 'recipe.save',
      by,
      body: {
        recipe,
        version: 1,
        body: {
          name: recipe,
          kind: 'fresh',
          smoked: false,
          readyToEat: false,
          meat: [{ material: 'pork-shoulder', pct: 100 }],
          additions: [{ material: 'salt', pct: 1.8 }],
        },
      },
    }
  for (let i = 0; i < 200; i += 1)
    yield {
      kind: 'business.add',
      by,
      body: { business: `C${i}`, name: `Shop ${i}`, address: `${i} Mill Road`, as: ['customer'] },
    }
}
