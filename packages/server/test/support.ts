import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { openLedger, type Draft, type Ledger } from '@forcemeat/ledger'
import { createApp, type App, type AppOptions, type LogLine } from '../src/index.ts'

export type House = {
  readonly folder: string
  readonly ledger: Ledger
  readonly app: App
  readonly log: LogLine[]
  readonly close: () => Promise<void>
  /** JSON in and out, with the status. */
  readonly ask: (
    method: string,
    path: string,
    body?: unknown,
    headers?: Record<string, string>,
  ) => Promise<{ status: number; body: Record<string, unknown>; headers: Headers }>
}

/** The days of the invented kitchens are behind this clock on any machine. */
const clock = (): Date => new Date(Math.max(Date.now(), Date.parse('2026-12-31T12:00:00Z')))

/** A server on a real record in a folder of its own. */
export async function openHouse(options: Partial<AppOptions> = {}): Promise<House> {
  const folder = mkdtempSync(join(tmpdir(), 'forcemeat-'))
  const ledger = await openLedger({ folder })
  const log: LogLine[] = []
  const app = createApp({ ledger, log: (line) => log.push(line), now: () => clock(), ...options })
  return {
    folder,
    ledger,
    app,
    log,
    close: async () => {
      app.hangUp()
      await ledger.close()
      rmSync(folder, { recursive: true, force: true })
    },
    ask: async (method, path, body, headers = {}) => {
      const response = await app.request(path, {
        method,
        headers,
        ...(body === undefined ? {} : { body: typeof body === 'string' ? body : JSON.stringify(body) }),
      })
      const text = await response.text()
      const json = response.headers.get('content-type')?.includes('json')
        ? (JSON.parse(text) as Record<string, unknown>)
        : { text }
      return { status: response.status, body: json, headers: response.headers }
    },
  }
}

const by = 'ana'
/** An invented kitchen with one batch planned, in as few facts as there can be. */
export const smallKitchen: readonly Draft[] = [
  { kind: 'person.add', by, body: { person: 'ana', name: 'Ana Brook', role: 'owner' } },
  {
    kind: 'kitchen.set',
    by,
    body: { name: 'Brackwater Smokehouse', place: 'Lower Fenwick', jurisdictions: ['US'], units: 'metric', demo: true },
  },
  {
    kind: 'instrument.add',
    by,
    body: { instrument: 'BENCH-30', type: 'scale', name: 'Bench scale', readabilityG: 5, checkEveryDays: 30 },
  },
  {
    kind: 'instrument.add',
    by,
    body: { instrument: 'SPICE-3', type: 'scale', name: 'Spice scale', readabilityG: 0.1, checkEveryDays: 30 },
  },
  {
    kind: 'lot.receive',
    by,
    body: { lot: 'PS-1', material: 'pork-shoulder-trim', kg: 50, on: '2026-11-20', supplier: 'Fenwick Farm' },
  },
  {
    kind: 'recipe.save',
    by,
    body: {
      recipe: 'HUNTER',
      version: 1,
      body: {
        name: 'Hunter’s link',
        kind: 'cooked',
        smoked: true,
        readyToEat: true,
        meat: [{ material: 'pork-shoulder-trim', pct: 100 }],
        additions: [
          { material: 'salt', pct: 1.8 },
          { material: 'curing-salt-6.25-nitrite', pct: 0.24 },
        ],
        nitriteTarget: { lowPpm: 120, highPpm: 156 },
        route: 'comminuted',
        casing: { calibreMm: 34, linkG: 110 },
        cook: {
          targetCoreC: 71.1,
          lossPct: 12,
          holdMinutes: 1,
          stages: [{ medium: 'steam', tempC: 78, rhPct: 95, untilCoreC: 71.1 }],
        },
        steps: ['Grind through 4.5 mm.', 'Mix with salt and cure until it binds.'],
      },
    },
  },
  {
    kind: 'batch.plan',
    by,
    body: {
      batch: 'B-1',
      recipe: 'HUNTER',
      version: 1,
      on: '2026-11-21',
      meatKg: 20,
      jurisdictions: ['US'],
      lines: [
        { line: 'meat', material: 'pork-shoulder-trim', lot: 'PS-1', targetKg: 20, scale: 'BENCH-30' },
        { line: 'salt', material: 'salt', targetKg: 0.36, scale: 'SPICE-3' },
        { line: 'cure', material: 'curing-salt-6.25-nitrite', targetKg: 0.048, scale: 'BENCH-30' },
      ],
    },
  },
]
