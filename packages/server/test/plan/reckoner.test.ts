import { afterEach, describe, expect, it } from 'vitest'
import { InvalidInput } from '@forcemeat/craft/calculation'
import { startReckoner, type Reckoner } from '../../src/plan/reckoner.ts'

let reckoner: Reckoner
afterEach(() => reckoner.stop())

describe('long calculations', () => {
  it('are reckoned on a thread of their own: this one goes on meanwhile', async () => {
    reckoner = startReckoner()
    let turns = 0
    const tick = setInterval(() => (turns += 1), 1)
    const input = {
      diameterMm: 60,
      composition: { waterPct: 57, proteinPct: 16, fatPct: 23, saltPct: 2.8 },
      stages: [{ days: 60, tempC: 13, rhPct: 80 }],
      target: { weightLossPct: 33 },
    }
    const { readyDay } = await reckoner.run<{ readyDay: { likely: number } }>('dry.course', input)
    clearInterval(tick)
    expect(readyDay.likely).toBeGreaterThan(20)
    expect(turns).toBeGreaterThan(5)
  })

  it('refuse bad input by its field, and answer the next question', async () => {
    reckoner = startReckoner()
    await expect(reckoner.run('dry.turns', { room: { tempC: 14 } })).rejects.toThrow(InvalidInput)
    const ok = await reckoner.run<{ days: unknown[] }>('dry.turns', {
      room: { tempC: 14, rhPct: 80 },
      batches: [],
      planned: [],
      days: 3,
    })
    expect(ok.days).toHaveLength(3)
  })

  it('are answered together, each with its own', async () => {
    reckoner = startReckoner()
    const asked = [1, 2, 3, 4].map((days) =>
      reckoner.run<{ days: unknown[] }>('dry.turns', {
        room: { tempC: 14, rhPct: 80 },
        batches: [],
        planned: [],
        days,
      }),
    )
    expect((await Promise.all(asked)).map((a) => a.days.length)).toEqual([1, 2, 3, 4])
  })

  it('fail aloud once the server stops, and never hang', async () => {
    reckoner = startReckoner()
    const first = reckoner.run('plan.production', {
      from: '2026-03-02',
      days: 5,
      products: [{ id: 'p', yieldPct: 100, leadDays: 0, needs: [], uses: [] }],
      orders: [],
      resources: [],
      lots: [],
    })
    reckoner.stop()
    await expect(first).rejects.toThrow()
    await expect(reckoner.run('dry.turns', {})).rejects.toThrow(/stopping/)
  })
})
