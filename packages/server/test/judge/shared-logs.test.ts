import type { Draft, Fact } from '@forcemeat/ledger'
import type { Finding } from '@forcemeat/craft/finding'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { loggerFile } from '../logger-file.ts'
import { openHouse, smallKitchen, type House } from '../support.ts'

const by = 'ana'
type Curve = Fact<'batch.curve'>

describe('a logger file that is recorded on another batch', () => {
  let house: House
  let file: string
  beforeEach(async () => {
    house = await openHouse()
    const plan = smallKitchen.find((d) => d.kind === 'batch.plan') as Extract<Draft, { kind: 'batch.plan' }>
    const again = (batch: string, on: string): Draft => ({ ...plan, body: { ...plan.body, batch, on } })
    await house.ledger.append([
      ...smallKitchen,
      again('B-2', '2026-11-21'),
      again('B-9', '2026-11-28'),
      {
        kind: 'instrument.add',
        by,
        body: { instrument: 'LOG-1', type: 'logger', name: 'Logger', toleranceC: 0.5, checkEveryDays: 30 },
      },
      ...['B-1', 'B-2'].flatMap((batch): Draft[] =>
        plan.body.lines.map((l) => ({
          kind: 'batch.weigh',
          by,
          body: { batch, line: l.line, kg: l.targetKg, instrument: l.scale! },
        })),
      ),
    ])
    file = (await house.ledger.putFile(new TextEncoder().encode(loggerFile()))).sha256
  })
  afterEach(() => house.close())

  const body = (batch: string, more: Partial<Curve> = {}): Curve => ({
    batch,
    purpose: 'cook-and-chill',
    file,
    fileName: 'smokehouse.csv',
    reading: { unit: 'C', dateOrder: 'YMD' },
    channels: [
      { column: 'Core 1 (°C)', role: 'core', instrument: 'LOG-1' },
      { column: 'House (°C)', role: 'house' },
    ],
    ...more,
  })
  const draft = (batch: string, more: Partial<Curve> = {}, rest: object = {}) => ({
    kind: 'batch.curve',
    by,
    body: body(batch, more),
    ...rest,
  })
  const attach = (batch: string, more: Partial<Curve> = {}, rest: object = {}) =>
    house.ask('POST', '/api/entries', draft(batch, more, rest))
  const seqOf = (answer: { body: Record<string, unknown> }) => (answer.body['entries'] as { seq: number }[])[0]!.seq
  const judged = async (batch: string) => {
    const answer = await house.ask('GET', `/api/batches/${batch}?judge=1`)
    const findings = (answer.body['findings'] ?? []) as Finding[]
    return findings.find((f) => f.rule === 'record.curve-shared')
  }

  it('is asked about at attaching, by the name of that batch, and taken with a note that names it', async () => {
    const first = seqOf(await attach('B-1'))
    const refused = await attach('B-2')
    expect(refused.status).toBe(400)
    expect(refused.body['faults']).toEqual([
      {
        path: 'body.note',
        message: expect.stringContaining(
          `is missing: smokehouse.csv is the log of batch B-1 of 2026-11-21 (entry ${first}) already`,
        ),
      },
    ])
    // A word on something else does not answer, nor does the name of a third batch.
    for (const note of ['probe in the thickest link', 'cooked with B-12'])
      expect((await attach('B-2', { note })).status, note).toBe(400)
    expect((await attach('B-2', { note: 'Hung on the same trolley as B-1.' })).status).toBe(201)
    expect(await judged('B-1')).toBeUndefined()
    expect(await judged('B-2')).toMatchObject({ verdict: 'pass', because: expect.stringContaining('B-1') })
  })

  it('is asked about among the entries of one call, and not for the air of a chamber or the batch itself', async () => {
    const both = await house.ask('POST', '/api/entries', [draft('B-1'), draft('B-2')])
    expect(both.status).toBe(400)
    expect(both.body['faults']).toMatchObject([{ path: '[1].body.note' }])
    expect((await attach('B-1', { purpose: 'cook' })).status).toBe(201)
    expect((await attach('B-1', { purpose: 'chill' })).status).toBe(201)
    for (const batch of ['B-1', 'B-2']) expect((await attach(batch, { purpose: 'ferment' })).status).toBe(201)
  })

  it('lets the first batch correct its own curve, and the later one only with its reason', async () => {
    const first = seqOf(await attach('B-1'))
    const note = 'Cooked together with B-1.'
    const second = seqOf(await attach('B-2', { note }))
    const corrected = { clockOffsetMinutes: 5 }
    expect((await attach('B-1', corrected, { corrects: first, why: 'clock' })).status).toBe(201)
    expect((await attach('B-2', corrected, { corrects: second, why: 'clock' })).status).toBe(400)
    expect((await attach('B-2', { ...corrected, note }, { corrects: second, why: 'clock' })).status).toBe(201)
    expect(await judged('B-2')).toMatchObject({ verdict: 'pass' })
  })

  it('releases neither batch where nobody says why it stands on both, until it is said or withdrawn', async () => {
    // As an import or an older program left it.
    const [, two] = await house.ledger.append([
      { kind: 'batch.curve', by, body: body('B-1') },
      { kind: 'batch.curve', by, body: body('B-2') },
    ])
    for (const [batch, other] of [
      ['B-1', 'B-2'],
      ['B-2', 'B-1'],
    ] as const) {
      const found = await judged(batch)
      expect(found).toMatchObject({
        verdict: 'cannot-tell',
        weight: 'limit',
        because: expect.stringContaining(`batch ${other} of 2026-11-21`),
        settle: expect.stringContaining(`entry ${two!.seq}`),
      })
      const release = await house.ask('POST', `/api/batches/${batch}/decide`, {
        decision: 'release',
        reasons: ['good'],
        by,
      })
      expect(release.status).toBe(409)
      expect(JSON.stringify(release.body)).toContain('record.curve-shared')
      const view = await house.ask('GET', `/api/batches/${batch}`)
      expect(view.body['sharedLogs']).toMatchObject([{ fileName: 'smokehouse.csv', other: { batch: other } }])
    }
    await house.ledger.append([{ kind: 'entry.withdraw', by, why: 'wrong batch', body: { entry: two!.seq } }])
    expect(await judged('B-1')).toBeUndefined()
    expect((await house.ask('GET', '/api/batches/B-1')).body['sharedLogs']).toBeUndefined()
  })

  it('answers for no batch of another week, whatever the note says', async () => {
    await attach('B-1')
    expect((await attach('B-9', { note: 'together with B-1' })).status).toBe(201)
    expect(await judged('B-9')).toMatchObject({ verdict: 'cannot-tell', because: expect.stringContaining('7 days') })
  })
})
