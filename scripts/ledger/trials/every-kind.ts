// A short story of a kitchen in which every kind of entry comes up, told under keys of its own, so that a teller who was stopped begins
// again from the first line and the record takes only what it does not hold. Invented codes only.
import type { Draft, Entry, Fact, FactKind } from '@forcemeat/ledger'
import { sha256 } from '@forcemeat/ledger/canonical'
import { beginning } from '../generate.ts'

const by = 'ada'
const day = '2026-03-02'
const noon = '2026-03-02T12:00:00.000Z'
const hex = 'a'.repeat(64)

/** A logger's file and a photograph, as small as they can be. */
const log = (n: number): Uint8Array => new TextEncoder().encode(`time;core\n2026-03-02 08:00;${n}\n`)
const photo = (n: number): Uint8Array =>
  Uint8Array.from([0xff, 0xd8, 0xff, ...[24, 16, 8, 0].map((s) => (n >>> s) & 0xff)])

/** What a story needs of a record: entries by key, and files. Each answer is an acknowledgement. */
export type Listener = {
  readonly append: (drafts: readonly Draft[]) => Promise<readonly Entry[]>
  readonly putFile: (data: Uint8Array) => Promise<unknown>
}

/** The kitchen the stories are set in: a kitchen, a person, a scale, a recipe. */
export const setting: readonly Draft[] = beginning.map((d, i) => ({ ...d, key: `begin-${i}` }))

/** Story `n`, from its first line to its last. */
export async function tell(n: number, { append, putFile }: Listener): Promise<void> {
  let step = 0
  /** Facts told together; answers the number of the first entry. */
  const say = async (...told: readonly (readonly [FactKind, unknown, object | undefined])[]): Promise<number> => {
    const drafts = told.map(([kind, body, more]) => ({ kind, by, body, key: `${n}-${(step += 1)}`, ...more }) as Draft)
    return (await append(drafts))[0]!.seq
  }
  const fact = <K extends FactKind>(kind: K, body: Fact<K>, more?: object) => [kind, body, more] as const
  const [lot, part, back, batch, pack] = [`L-${n}`, `LP-${n}`, `LR-${n}`, `B-${n}`, `P-${n}`]
  const [recipe, scale, room, order, deviation] = [`R-${n}`, `S-${n}`, `ROOM-${n}`, `O-${n}`, `D-${n}`]

  await say(fact('person.add', { person: `p-${n}`, name: `Hand ${n}`, role: 'maker' }))
  await say(fact('kitchen.set', { name: `Hollow Lane ${n}`, jurisdictions: ['GB'], units: 'metric', demo: true }))
  const check = { instrument: scale, method: 'test-load', reference: 1000, unit: 'g', tolerance: 2 } as const
  await say(
    fact('instrument.add', { instrument: scale, type: 'scale', name: 'Scale', readabilityG: 1, checkEveryDays: 30 }),
    fact('instrument.check', { ...check, reading: 1000, on: '2026-03-01' }),
  )
  await say(fact('business.add', { business: `C-${n}`, name: `Shop ${n}`, as: ['customer'] }))
  const [kitchenRecipe] = beginning.filter((d) => d.kind === 'recipe.save')
  await say(fact('recipe.save', { ...kitchenRecipe!.body, recipe }))
  await say(
    fact('price.set', { material: 'pork-shoulder', supplier: `Farm ${n}`, costPerKg: 3.5, from: day }),
    fact('price.sell', { recipe, pricePerKg: 11, from: day }),
  )
  await say(
    fact('plan.resource', {
      resource: `MIXER-${n}`,
      name: 'Mixer',
      perDay: 300,
      unit: 'kg',
      takes: [{ of: 'all', perKg: 1 }],
    }),
  )
  await say(fact('room.add', { room, name: 'Drying room', purpose: 'dry', tempC: 14, rhPct: 80 }))
  await say(fact('order.take', { order, customer: `Shop ${n}`, on: day, due: day, lines: [{ recipe, kg: 5 }] }))
  await say(fact('lot.receive', { lot, material: 'pork-shoulder', supplier: `Farm ${n % 7}`, kg: 50, on: day }))
  await say(
    fact('lot.split', { from: lot, lot: part, kg: 20, on: day }),
    fact('lot.move', { lot, place: 'b', on: day }),
  )
  await say(
    fact('lot.treat', {
      lot: part,
      way: 'frozen-room',
      on: day,
      thicknessMm: 150,
      roomC: -20,
      from: '2026-02-01T08:00:00.000Z',
      until: '2026-02-20T08:00:00.000Z',
    }),
  )
  const line = (name: string, from: string) => ({
    line: name,
    material: 'pork-shoulder',
    lot: from,
    targetKg: 10,
    scale,
  })
  await say(
    fact('batch.plan', {
      batch,
      recipe,
      version: 1,
      on: day,
      meatKg: 20,
      jurisdictions: ['GB'],
      lines: [line('a', lot), line('b', part)],
    }),
  )
  const weighed = await say(fact('batch.weigh', { batch, line: 'a', kg: 10, instrument: scale }))
  await say(fact('batch.weigh', { batch, line: 'b', kg: 10, instrument: scale }))
  await say(fact('batch.weigh', { batch, line: 'a', kg: 10.5 }, { corrects: weighed, why: 'misread' }))
  await say(fact('batch.measure', { batch, step: 'mix', what: 'temperature', value: 2, unit: '°C', taken: noon }))
  await putFile(log(n))
  const channels = [{ column: 'core', role: 'core' }] as const
  const curve = {
    batch,
    purpose: 'cook',
    fileName: 'log.csv',
    reading: { delimiter: ';' },
    file: sha256(log(n)),
  } as const
  await say(fact('batch.curve', { ...curve, channels: [...channels] }))
  await say(
    fact('batch.place', { batch, room, at: noon }),
    fact('batch.place', { batch, at: '2026-03-03T12:00:00.000Z' }),
  )
  const wrong = await say(fact('instrument.check', { ...check, reading: 1010, on: '2026-03-03' }))
  await say(
    fact('doubt.settle', { batch, instrument: scale, check: wrong, outcome: 'stands', because: 'weighed again' }),
  )
  const counts = { pass: 1, fail: 0, cannotTell: 0 }
  await say(fact('batch.decide', { batch, decision: 'release', reasons: ['looked at'], signed: hex, counts }))
  await say(fact('batch.pack', { batch, pack, count: 40, totalKg: 18, on: day }))
  await say(fact('pack.ship', { pack, to: `Shop ${n}`, count: 10, on: day }))
  await say(fact('lot.rework', { lot: back, batch, material: 'pork-shoulder', kg: 1, on: day }))
  await say(
    fact('deviation.open', { deviation, on: day, about: [{ type: 'batch', id: batch }], what: 'a casing burst' }),
  )
  await say(
    fact('deviation.act', { deviation, on: day, product: 'reworked', cause: 'overfilled', prevention: 'slower' }),
    fact('deviation.close', { deviation, on: day, because: 'looked at' }),
  )
  const signed = { recipe, version: 1, file: sha256(log(n)), name: 'Ada', qualification: 'a course', on: day }
  await say(fact('hazard.sign', { ...signed, completed: [{ item: 'team', said: 'Ada' }] }))
  await putFile(photo(n))
  await say(fact('photo.attach', { file: sha256(photo(n)), of: 'lot', id: lot }))
  await say(
    fact('label.approve', {
      label: `T-${n}`,
      recipe,
      version: 1,
      place: 'GB',
      pack: {},
      contentHash: hex,
      fields: [{ field: 'name', text: 'Sausage' }],
      allergens: [],
      reasons: ['read'],
    }),
  )
  const plan = { recipe, version: 1, file: sha256(photo(n)), on: day, completed: [] }
  await say(fact('hazard.sign', { ...plan, name: 'Ada', qualification: 'trained' }))
  const times = { began: noon, ended: '2026-03-02T12:05:00.000Z' }
  await say(
    fact('recall.drill', {
      drill: `RD-${n}`,
      subject: 'lot',
      of: lot,
      trial: true,
      ...times,
      packs: 40,
      accounted: 40,
    }),
  )
  const counted = await say(fact('lot.adjust', { lot, kg: -1, reason: 'count', on: day }))
  await say(fact('entry.withdraw', { entry: counted }, { why: 'entered twice' }))
  await say(fact('order.close', { order, outcome: 'delivered', on: day }))
}
