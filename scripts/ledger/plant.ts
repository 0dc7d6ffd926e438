// Years of an invented plant, made from a seed: lots received, split and moved, batches weighed from them, rework over several levels,
// packs and consignments, corrections and withdrawals. Every draft is one the record admits: masses are kept in grams and never go below nothing.
import type { Draft } from '@forcemeat/ledger/facts'
import { additions, meats, plantBeginning, shelf, type Addition } from './plant-people.ts'
import { seeded } from './seeded.ts'

/** A draft and the instant it is recorded. */
export type Dated = { readonly draft: Draft; readonly at: string }

export type PlantCount = { lots: number; movements: number; entries: number; batches: number; packs: number }

type Open = { readonly lot: string; g: number; readonly level: number }

/** Levels of rework after which what is left is thrown away. */
const mostLevels = 5
/** Meat lots a day, and batches for each 1,000 lots, so that a lot has about five movements. */
const [lotsADay, batchesPerLot] = [360, 0.47]

/**
 * So many lots, with about five movements for each. Of 1,000 lots some 900 come in at the door, 40 are split off and 25 are rework; each is
 * used in two or three batches, a tub of spice in eighty, a silo of salt in a thousand. `count` is kept up to date as drafts are taken.
 */
export function* plant(lots: number, seed = 1, count: PlantCount = zero()): Generator<Dated> {
  const random = seeded(seed)
  const upTo = (n: number) => Math.floor(random() * n)
  let clock = Date.UTC(2019, 0, 2, 5)
  let day = ''
  const dated = (draft: Draft): Dated => {
    clock += 1
    count.entries += 1
    return { draft, at: new Date(clock).toISOString() }
  }
  const by = () => `hand-${upTo(12)}`
  const instrument = () => `SCALE-${upTo(8)}`
  const stock: Open[] = []
  const rework: Open[] = []
  const tubs = new Map<string, Open>()

  const received = (material: string, g: number, supplier: string, useIn: number): Dated => {
    const lot = `L${count.lots}`
    count.lots += 1
    count.movements += 1
    const useBy = new Date(Date.parse(day) + useIn * 86_400_000).toISOString().slice(0, 10)
    return dated({
      kind: 'lot.receive',
      by: by(),
      body: {
        lot,
        material,
        supplier,
        supplierLot: `${upTo(1e6)}`,
        kg: g / 1000,
        on: day,
        useBy,
        place: `chill ${upTo(4)}`,
      },
    })
  }
  const lotIn = ({ draft }: Dated): string => (draft.body as { lot: string }).lot

  function* morning(): Generator<Dated> {
    const wanted = Math.min(lotsADay, lots - count.lots)
    for (let i = 0; i < wanted * 0.935; i += 1) {
      const g = 150_000 + upTo(250_000)
      const entry = received(meats[upTo(meats.length)]!, g, `Farm ${upTo(150)}`, 6)
      yield entry
      const whole: Open = { lot: lotIn(entry), g, level: 0 }
      stock.push(whole)
      if (random() < 0.045 && count.lots < lots) yield* split(whole)
      if (random() < 0.02)
        yield dated({ kind: 'lot.move', by: by(), body: { lot: whole.lot, place: `freezer ${upTo(3)}`, on: day } })
    }
    // Older meat goes first, and what nobody wanted after some days is written off.
    const left = stock.splice(0).filter((l) => l.g >= 100)
    for (const old of left.splice(0, Math.max(0, left.length - 900))) yield* writtenOff(old)
    stock.push(...left)
  }
  function* split(whole: Open): Generator<Dated> {
    const g = Math.floor(whole.g * (0.2 + 0.4 * random()))
    const lot = `L${count.lots}`
    count.lots += 1
    count.movements += 2
    whole.g -= g
    yield dated({
      kind: 'lot.split',
      by: by(),
      body: { from: whole.lot, lot, kg: g / 1000, on: day, place: `freezer ${upTo(3)}` },
    })
    stock.push({ lot, g, level: 0 })
  }
  function* writtenOff({ lot, g }: Open): Generator<Dated> {
    if (g === 0) return
    count.movements += 1
    yield dated({ kind: 'lot.adjust', by: by(), body: { lot, kg: -g / 1000, reason: 'waste', on: day } })
  }

  /** The tub of an addition that is open, a new one where it would not last. */
  function* tubOf(a: Addition, g: number): Generator<Dated, Open> {
    let tub = tubs.get(a.material)
    if (!tub || tub.g < g) {
      if (tub) yield* writtenOff(tub)
      const entry = received(a.material, a.tubKg * 1000, a.supplier, 700)
      yield entry
      tub = { lot: lotIn(entry), g: a.tubKg * 1000, level: 0 }
      tubs.set(a.material, tub)
    }
    return tub
  }

  function* batch(): Generator<Dated> {
    const code = `B${count.batches}`
    const recipe = shelf[upTo(shelf.length)]!
    const parts: { line: string; material: string; from: Open; g: number }[] = []
    let [meatG, level] = [0, 0]
    const meat = (from: Open, most: number) => {
      const g = Math.min(from.g, most)
      if (g < 100) return
      from.g -= g
      meatG += g
      level = Math.max(level, from.level)
      parts.push({ line: `m${parts.length}`, material: 'pork-shoulder', from, g })
    }
    for (let i = 0; i < 20 && parts.length < 5 && stock.length > 0; i += 1)
      meat(stock[Math.floor(random() ** 2 * stock.length)]!, 60_000 + upTo(60_000))
    if (parts.length === 0) return
    count.batches += 1
    while (rework.length > 0 && rework[0]!.g < 100) rework.shift()
    if (rework.length > 0 && random() < 0.12) meat(rework[0]!, 30_000)
    for (const a of additions) {
      if (a.only !== undefined && upTo(shelf.length) >= a.only * shelf.length) continue
      const g = Math.max(1, Math.round((meatG * a.pct) / 100))
      const from = yield* tubOf(a, g)
      from.g -= g
      parts.push({ line: `a${parts.length}`, material: a.material, from, g })
    }
    yield dated({
      kind: 'batch.plan',
      by: by(),
      body: {
        batch: code,
        recipe,
        version: 1,
        on: day,
        meatKg: meatG / 1000,
        jurisdictions: ['US'],
        lines: parts.map(({ line, material, from, g }) => ({
          line,
          material,
          lot: from.lot,
          targetKg: g / 1000,
          scale: 'SCALE-0',
        })),
      },
    })
    let inG = 0
    for (const { line, g } of parts) {
      inG += g
      count.movements += 1
      const weighed = { kind: 'batch.weigh', by: by(), body: { batch: code, line, kg: g / 1000 } } as const
      const first = dated({ ...weighed, body: { ...weighed.body, instrument: instrument() } })
      yield first
      if (random() < 0.01)
        yield dated({ ...weighed, corrects: count.entries, why: 'the other scale', body: { ...weighed.body } })
    }
    yield dated({
      kind: 'batch.measure',
      by: by(),
      body: {
        batch: code,
        step: 'mix',
        what: 'temperature',
        value: upTo(80) / 10,
        unit: '°C',
        taken: new Date(clock).toISOString(),
        instrument: 'PROBE-0',
      },
    })
    const again = level < mostLevels && random() < 0.05 ? Math.floor(inG * 0.03) : 0
    if (again > 0 && count.lots < lots) {
      const lot = `L${count.lots}`
      count.lots += 1
      count.movements += 1
      yield dated({
        kind: 'lot.rework',
        by: by(),
        body: { lot, batch: code, material: 'pork-shoulder', kg: again / 1000, on: day },
      })
      rework.push({ lot, g: again, level: level + 1 })
    }
    yield* out(code, inG - again)
  }

  function* out(code: string, g: number): Generator<Dated> {
    const hold = random() < 0.01
    yield dated({
      kind: 'batch.decide',
      by: 'checker-0',
      body: {
        batch: code,
        decision: hold ? 'hold' : 'release',
        reasons: ['judged'],
        signed: 'a'.repeat(64),
        counts: { pass: 6, fail: hold ? 1 : 0, cannotTell: 0 },
      },
    })
    if (hold) return
    const kinds = 1 + upTo(2)
    for (let i = 0; i < kinds; i += 1) {
      const pack = `P${count.packs}`
      count.packs += 1
      const size = 20 + upTo(400)
      const totalKg = Math.floor((g * 0.95) / kinds) / 1000
      yield dated({
        kind: 'batch.pack',
        by: by(),
        body: { batch: code, pack, count: size, totalKg, on: day },
      })
      for (let left = size; left > size * 0.1;) {
        const part = Math.min(left, 1 + Math.floor(size * (0.3 + 0.4 * random())))
        left -= part
        yield dated({
          kind: 'pack.ship',
          by: by(),
          body: { pack, to: `Shop ${upTo(2000)}`, count: part, on: day },
        })
      }
    }
  }

  day = new Date(clock).toISOString().slice(0, 10)
  for (const draft of plantBeginning()) yield dated(draft)
  let owed = 0
  while (count.lots < lots) {
    const before = count.lots
    yield* morning()
    owed += (count.lots - before) * batchesPerLot
    for (; owed >= 1; owed -= 1) yield* batch()
    clock = Date.parse(day) + 86_400_000 + 5 * 3_600_000
    day = new Date(clock).toISOString().slice(0, 10)
  }
}

export const zero = (): PlantCount => ({ lots: 0, movements: 0, entries: 0, batches: 0, packs: 0 })
