import { describe, expect, it } from 'vitest'
import type { BatchFacts, CurveChannel } from '../../src/batch/facts.ts'
import { judgeBatch } from '../../src/batch/judge-batch.ts'
import { air, fermented, measures, slow } from './slow-batch.ts'

/** A core that comes up to 72 °C in 150 min, stays 15 and is cold soon after. */
const cook: CurveChannel = {
  seq: 13,
  column: 'core',
  log: Array.from({ length: 421 }, (_, minute) => ({
    minute,
    coreC: minute < 150 ? 24 + (minute / 150) * 48 : minute < 165 ? 72 : Math.max(3, 72 - (minute - 165) * 0.9),
  })),
}
const cookCurve = {
  seq: 13,
  purpose: 'cook-and-chill' as const,
  channels: [{ column: 'core', role: 'core', instrument: 'T1' }],
}
const body = slow().recipeBody
const { ferment: _f, dry: _d, ...bare } = body
const culture = [...body.additions, { material: 'starter-culture', pct: 0.025 }]
const lactone = [...body.additions, { material: 'glucono-delta-lactone', pct: 0.5 }]

const judged = (change: Partial<BatchFacts>, logs = air, cores: readonly CurveChannel[] = []) =>
  judgeBatch(slow(change), cores, { air: logs })
const found = (rule: string, j: ReturnType<typeof judged>) => j.findings.find((f) => f.rule === rule)

describe('a product named cooked that is soured and dried (staphylococcal enterotoxin is heat-stable: common practice, no source)', () => {
  const semi = { recipeBody: { ...body, kind: 'cooked' as const, cook: { targetCoreC: 71 } } }
  it('with a good cook and neither log nor water activity cannot be told', () => {
    const j = judged({ ...semi, curves: [cookCurve], measures: [] }, [], [cook])
    expect(found('record.ferment', j)?.verdict).toBe('cannot-tell')
    expect(found('record.dry-end', j)?.verdict).toBe('cannot-tell')
    expect(j.verdict).not.toBe('pass')
  })
  it('after three days at 31.9 °C with pH 5.7 and water activity 0.97 is not let go', () => {
    const wet = measures.map((m) =>
      m.what === 'ph' ? { ...m, value: 5.7 } : m.what === 'aw' ? { ...m, value: 0.97 } : m,
    )
    const hot = fermented(() => 31.9)
    const j = judged({ ...semi, curves: [...slow().curves, cookCurve], measures: wet }, [hot, air[1]!], [cook])
    expect(j.verdict).not.toBe('pass')
    expect(found('us.ferment.degree-hours', j)?.verdict).not.toBe('pass')
    expect(found('record.dry-aw', j)?.verdict).toBe('fail')
  })
  it('is soured by a culture in it alone, but not by a little lactone, nor without either', () => {
    const cooked = { ...bare, kind: 'cooked' as const, cook: { targetCoreC: 71 } }
    const of = (additions: typeof culture) =>
      judged({ recipeBody: { ...cooked, additions }, curves: [cookCurve], measures: [] }, [], [cook])
    expect(found('record.ferment', of(culture))?.because).toMatch(/neither planned nor recorded/)
    expect(found('record.ferment', of(lactone))).toBeUndefined()
    expect(found('record.dry-end', of(body.additions))).toBeUndefined()
  })
})

it('a culture weighed in that the recipe does not name sours it as well', () => {
  const lines = [...slow().lines, { line: '5', material: 'starter-culture', targetKg: 0.005, scale: 'S2' }]
  const recipeBody = { ...bare, kind: 'dried' as const, dry: body.dry! }
  const none = { curves: [], measures: measures.filter((m) => m.what !== 'ph') }
  expect(found('record.ferment', judged({ ...none, lines, recipeBody }, []))?.verdict).toBe('cannot-tell')
  expect(found('record.ferment', judged({ ...none, recipeBody }, []))).toBeUndefined()
})

describe('a dried product with what sours it and no fermentation planned', () => {
  const dried = (additions: typeof culture) => ({
    recipeBody: { ...bare, dry: body.dry!, kind: 'dried' as const, additions },
  })
  it.each([
    ['a culture', culture],
    ['glucono-delta-lactone', lactone],
  ])('%s: without log and pH it cannot be told', (_name, additions) => {
    const none = { curves: [], measures: measures.filter((m) => m.what !== 'ph') }
    const j = judged({ ...dried(additions), ...none }, [])
    expect(found('record.ferment', j)?.because).toMatch(/neither planned nor recorded/)
    expect(j.verdict).toBe('cannot-tell')
  })
  it('with its log and pH is judged by them', () => {
    expect(judged(dried(culture)).verdict).toBe('pass')
  })
})

describe('a raw product eaten as sold', () => {
  const raw = { ...bare, kind: 'fresh' as const }
  const nothing = { curves: [], measures: [] }
  it('of pork cannot be told, and Salmonella is named', () => {
    const j = judged({ ...nothing, recipeBody: raw }, [])
    expect(found('record.raw-eaten', j)?.verdict).toBe('cannot-tell')
    expect(found('record.raw-eaten', j)?.because).toMatch(/Salmonella/)
    expect(j.verdict).not.toBe('pass')
  })
  it('of beef cannot be told in any place, and E. coli is named', () => {
    const lines = slow().lines.map((l) => (l.line === '1' ? { ...l, material: 'beef-trim-90-10' } : l))
    const lots = slow().lots.map((l) => (l.lot === 'L1' ? { ...l, material: 'beef-trim-90-10' } : l))
    for (const place of ['US', 'EU']) {
      const j = judged({ ...nothing, recipeBody: raw, lines, lots, jurisdictions: [place] }, [])
      expect(found('record.raw-eaten', j)?.because).toMatch(/E\. coli/)
      expect(j.verdict).not.toBe('pass')
    }
  })
  it('is not asked of one that is sold to be cooked', () => {
    expect(found('record.raw-eaten', judged({ ...nothing, recipeBody: { ...raw, readyToEat: false } }, []))).toBe(
      undefined,
    )
  })
  it('named fresh with a fermentation and a drying is judged by these', () => {
    const j = judged({ ...nothing, recipeBody: { ...body, kind: 'fresh' } }, [])
    expect(found('record.ferment', j)?.verdict).toBe('cannot-tell')
    expect(found('record.dry-end', j)?.verdict).toBe('cannot-tell')
  })
})

describe('a fermented or dried product said not to be ready to eat', () => {
  const recipeBody = { ...body, readyToEat: false }
  it('is held to its end all the same', () => {
    const bareDry = { ...bare, kind: 'dried' as const, readyToEat: false, dry: { lossPct: 30 } }
    const j = judged({ recipeBody: bareDry, curves: [], measures: [] }, [])
    expect(found('record.dry-end', j)?.verdict).toBe('cannot-tell')
    expect(j.verdict).not.toBe('pass')
  })
  it('with beef is asked about E. coli all the same', () => {
    const lines = slow().lines.map((l) => (l.line === '1' ? { ...l, material: 'beef-trim-90-10' } : l))
    expect(found('us.ferment.e-coli', judged({ recipeBody, lines }))?.verdict).toBe('cannot-tell')
  })
})

describe('beef that comes in by rework or under another name', () => {
  const rework = (ancestry: BatchFacts['ancestry'] | undefined) =>
    judged({
      lots: slow().lots.map((l) => (l.lot === 'L1' ? { ...l, origin: { batch: 'B0' } } : l)),
      ...(ancestry ? { ancestry } : {}),
    })
  const lot = (code: string, material: string) => ({ lot: code, material, on: '2026-02-01' })
  const made = { batch: 'B0', on: '2026-03-01', kind: 'fermented' as const, lots: ['X1'] }
  const asked = (j: ReturnType<typeof judged>) => found('us.ferment.e-coli', j)?.verdict
  it('is asked about E. coli', () => {
    expect(asked(rework({ lots: [lot('X1', 'beef-trim-90-10')], batches: [made] }))).toBe('cannot-tell')
    expect(asked(rework({ lots: [lot('X1', 'pork-shoulder-trim')], batches: [made] }))).toBeUndefined()
    const line = { ...made, materials: ['beef-trim-90-10'], lots: [] }
    expect(asked(rework({ lots: [], batches: [line] }))).toBe('cannot-tell')
  })
  it('is taken to be there where nobody knows what the rework is made of', () => {
    expect(asked(rework(undefined))).toBe('cannot-tell')
    expect(asked(rework({ lots: [], batches: [made] }))).toBe('cannot-tell')
  })
  it('by a lot of beef weighed in on a line of pork', () => {
    const lots = slow().lots.map((l) => (l.lot === 'L1' ? { ...l, material: 'beef-trim-90-10' } : l))
    expect(asked(judged({ lots }))).toBe('cannot-tell')
  })
})
