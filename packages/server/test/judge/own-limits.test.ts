import { openLedger, type Draft, type Ledger } from '@forcemeat/ledger'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { judged } from '../../src/judge/judged.ts'
import { createApp } from '../../src/index.ts'
import { smallKitchen } from '../support.ts'

const by = 'ana'
type Kitchen = Extract<Draft, { kind: 'kitchen.set' }>
type Plan = Extract<Draft, { kind: 'batch.plan' }>
const kitchen = smallKitchen.find((d) => d.kind === 'kitchen.set') as Kitchen
const plan = smallKitchen.find((d) => d.kind === 'batch.plan') as Plan

describe('the limits a kitchen sets itself hold from the day they were entered', () => {
  let folder: string
  let ledger: Ledger
  let now = '2026-10-01T08:00:00.000Z'
  /** Entry of the kitchen as it stands. */
  const standing = async () => (await ledger.kitchen())!.seq
  const limits = async (at: string, ownLimits?: Kitchen['body']['ownLimits']): Promise<void> => {
    now = at
    await ledger.append([
      {
        kind: 'kitchen.set',
        by,
        corrects: await standing(),
        why: 'what we hold ourselves to',
        body: { ...kitchen.body, ...(ownLimits ? { ownLimits } : {}) },
      },
    ])
  }
  const reworked = (batch: string, on: string): Draft[] => [
    {
      ...plan,
      body: {
        ...plan.body,
        batch,
        on,
        lines: [{ line: 'rework', material: 'pork-shoulder-trim', lot: 'RW', targetKg: 2 }],
      },
    },
    { kind: 'batch.weigh', by, body: { batch, line: 'rework', kg: 2 } },
  ]
  const share = async (batch: string) =>
    (await judged(ledger, (await ledger.batch(batch))!)).findings.find((f) => f.rule === 'rework.own-share')?.limit

  beforeEach(async () => {
    folder = mkdtempSync(join(tmpdir(), 'forcemeat-own-'))
    now = '2026-10-01T08:00:00.000Z'
    ledger = await openLedger({ folder, now: () => now })
    await ledger.append(smallKitchen.filter((d) => d.kind !== 'batch.plan'))
    await ledger.append([
      { ...plan, body: { ...plan.body, batch: 'OLD', on: '2026-09-01' } },
      {
        kind: 'lot.rework',
        by,
        body: {
          lot: 'RW',
          batch: 'OLD',
          material: 'pork-shoulder-trim',
          kg: 50,
          on: '2026-09-02',
          note: 'counted on the bench',
        },
      },
    ])
  })
  afterEach(async () => {
    await ledger.close()
    rmSync(folder, { recursive: true, force: true })
  })

  it('a batch keeps those of its own day when they are changed or taken off later', async () => {
    await limits('2026-10-10T08:00:00.000Z', { reworkMaxPct: 10 })
    await limits('2026-11-10T08:00:00.000Z', { reworkMaxPct: 4 })
    await limits('2026-12-10T08:00:00.000Z')
    await ledger.append(
      [
        ['A', '2026-10-05'],
        ['B', '2026-10-10'],
        ['C', '2026-11-09'],
        ['D', '2026-11-10'],
        ['E', '2026-12-10'],
        // Before the first entry there is: by what the kitchen began with.
        ['F', '2026-09-20'],
      ].flatMap(([batch, on]) => reworked(batch!, on!)),
    )
    expect(await Promise.all(['A', 'B', 'C', 'D', 'E', 'F'].map(share))).toEqual([
      undefined,
      10,
      10,
      4,
      undefined,
      undefined,
    ])
  })

  it('what is dated before the kitchen was set up is held against what it began with', async () => {
    await limits('2026-10-01T18:00:00.000Z', { reworkMaxPct: 10 })
    await limits('2026-10-02T08:00:00.000Z', { reworkMaxPct: 4 })
    await ledger.append(reworked('F', '2026-09-20'))
    expect(await share('F')).toBe(10)
  })

  it('what was entered last on a day is what holds from it: a slip put right at once never held', async () => {
    await limits('2026-10-10T08:00:00.000Z', { reworkMaxPct: 70 })
    await limits('2026-10-10T08:05:00.000Z', { reworkMaxPct: 7 })
    await ledger.append(reworked('B', '2026-10-10'))
    expect(await share('B')).toBe(7)
    expect((await ledger.kitchenOn('2026-10-10'))?.ownLimits).toEqual({ reworkMaxPct: 7 })
  })

  it('a lot is held against those of the day it came in', async () => {
    await limits('2026-10-10T08:00:00.000Z', { arrivalMaxC: 2 })
    await limits('2026-11-10T08:00:00.000Z', { arrivalMaxC: 6 })
    const app = createApp({ ledger, log: () => undefined, now: () => new Date('2026-12-31T12:00:00Z') })
    const own = async (on: string) => {
      const answer = await app.request(`/api/arrival?material=pork-shoulder-trim&on=${on}&arrivalC=4`)
      const { findings } = (await answer.json()) as { findings: { rule: string; limit?: number }[] }
      return findings.find((f) => f.rule === 'receive.own')
    }
    expect(await own('2026-10-01')).toBeUndefined()
    expect((await own('2026-10-20'))?.rule).toBe('receive.own')
    app.hangUp()
  })
})
