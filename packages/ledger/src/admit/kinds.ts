import { bodyOf } from '../entry.ts'
import type { Fact, FactKind } from '../facts.ts'
import { lotWeighed } from '../views/project.ts'
import { balanceHolds } from './balance.ts'
import { afterBatch, afterLot, afterPack, lotWasThere } from './days.ts'
import { anOwnerStays } from './owners.ts'
import { closingHolds, orderHolds, priceHolds, resourceHolds, sellingPriceHolds } from './orders.ts'
import { photoHolds } from './photo.ts'
import { deviationClosable, doubtHolds, openStill, reworkHolds, secondPerson, splitHolds } from './stock.ts'
import { treatmentHolds } from './treatment.ts'
import { mustBeKnown, mustBeNew, stands, type Admission } from './report.ts'

type Check<K extends FactKind> = (a: Admission<K>) => Promise<void>

async function recipeVersionIsNext({ sql, draft, old, fault }: Admission<'recipe.save'>): Promise<void> {
  const { recipe, version } = draft.body
  if (old) {
    if (old.body.version !== version)
      fault(
        'body.version',
        `is ${version}, and the entry it corrects is version ${old.body.version}; allowed: the same version`,
      )
    return
  }
  const rows = await sql.all<{ part: string }>(`select part from fact where subject = ? and kind = 'recipe.save'`, [
    recipe,
  ])
  const next = rows.reduce((most, r) => Math.max(most, Number(r.part)), 0) + 1
  if (version !== next) fault('body.version', `is ${version}; allowed: ${next}, the next version of recipe ${recipe}`)
}

async function planHolds(a: Admission<'batch.plan'>): Promise<void> {
  const { sql, draft, old, fault } = a
  const { batch, recipe, version, lines } = draft.body
  await mustBeNew(a, 'body.batch', 'batch', batch)
  if (await mustBeKnown(a, 'body.recipe', 'recipe', recipe)) {
    const found = await sql.all(`select 1 from fact where subject = ? and kind = 'recipe.save' and part = ?`, [
      recipe,
      String(version),
    ])
    if (found.length === 0)
      fault('body.version', `is ${version}, which recipe ${recipe} does not have; allowed: a version saved before`)
  }
  const seen = new Set<string>()
  for (const [i, line] of lines.entries()) {
    if (seen.has(line.line))
      fault(
        `body.lines[${i}].line`,
        `is ${JSON.stringify(line.line)} a second time; allowed: a code of its own for each line`,
      )
    seen.add(line.line)
    await mustBeKnown(a, `body.lines[${i}].lot`, 'lot', line.lot)
    await mustBeKnown(a, `body.lines[${i}].scale`, 'instrument', line.scale)
  }
  if (!old) return
  const weighed = await sql.all<{ text: string }>(
    `select e.text from fact f join entry e on e.seq = f.seq where f.subject = ? and f.kind = 'batch.weigh'`,
    [batch],
  )
  for (const { text } of weighed) {
    const { body, seq } = JSON.parse(text) as { body: Fact<'batch.weigh'>; seq: number }
    const [was, now] = [old.body.lines, lines].map((l) => l.find((x) => x.line === body.line))
    if (!now)
      fault(
        'body.lines',
        `leaves out line ${body.line}, weighed in entry ${seq}; allowed: to keep it, or withdraw the weighing first`,
      )
    else if (body.lot === undefined && was?.lot !== now.lot)
      fault(
        'body.lines',
        `changes the lot of line ${body.line}, weighed in entry ${seq}; allowed: to correct the weighing, naming its lot`,
      )
  }
}

async function weighingHolds(a: Admission<'batch.weigh'>): Promise<void> {
  const { sql, draft, fault } = a
  const { batch, line, lot, instrument } = draft.body
  await mustBeKnown(a, 'body.lot', 'lot', lot)
  await mustBeKnown(a, 'body.instrument', 'instrument', instrument)
  if (!(await mustBeKnown(a, 'body.batch', 'batch', batch))) return
  const plan = await bodyOf<Fact<'batch.plan'>>(sql, 'batch.plan', batch)
  const lines = plan?.lines.map((l) => l.line) ?? []
  if (!lines.includes(line))
    fault(
      'body.line',
      `is ${JSON.stringify(line)}, which the sheet of batch ${batch} does not have; allowed: one of ${lines.join(', ')}`,
    )
  else {
    const taken = await lotWeighed(sql, draft.body, a.plans)
    if (taken === undefined) return
    await balanceHolds(a as Admission, 'body.kg')
    await lotWasThere(a, lot === undefined ? 'body.line' : 'body.lot', taken, batch)
  }
}

async function shipmentHolds(a: Admission<'pack.ship'>): Promise<void> {
  const { sql, draft, old, fault } = a
  const { pack, count, note } = draft.body
  if (!(await mustBeKnown(a, 'body.pack', 'pack', pack))) return
  await afterPack(a, 'body.on', pack, draft.body.on)
  if (note !== undefined) return
  const [row] = await sql.all<{ count: number; shipped: number; batch: string; decision: string | null }>(
    'select p.count, p.shipped, p.batch, b.decision from pack p join batch b on b.batch = p.batch where p.pack = ?',
    [pack],
  )
  if (!row) return
  const left = row.count - row.shipped + (old?.body.count ?? 0)
  if (count > left)
    fault(
      'body.count',
      `is ${count}, and ${left} of pack ${pack} are here; allowed: at most ${left}, or a note that says why`,
    )
  if (row.decision !== 'release')
    fault(
      'body.pack',
      `is of batch ${row.batch}, which ${row.decision === 'hold' ? 'is on hold' : 'nobody has released'}; allowed: after its release, or with a note that says why`,
    )
}

/** What each kind asks of the record as it stands. */
export const checks: { readonly [K in FactKind]: Check<K> } = {
  'kitchen.set': async () => undefined,
  'person.add': async (a) => {
    await mustBeNew(a, 'body.person', 'person', a.draft.body.person)
    const { role, left } = a.draft.body
    if (a.old && (role !== 'owner' || left)) await anOwnerStays(a, a.old, left ? 'body.left' : 'body.role')
  },
  'instrument.add': (a) => mustBeNew(a, 'body.instrument', 'instrument', a.draft.body.instrument),
  'instrument.check': async (a) =>
    void (await mustBeKnown(a, 'body.instrument', 'instrument', a.draft.body.instrument)),
  'lot.receive': async (a) => {
    await mustBeNew(a, 'body.lot', 'lot', a.draft.body.lot)
    await mustBeKnown(a, 'body.arrival.instrument', 'instrument', a.draft.body.arrival?.instrument)
    if (a.old) await balanceHolds(a as Admission, 'body.kg')
  },
  'lot.adjust': async (a) => {
    const { lot, on } = a.draft.body
    if (!(await mustBeKnown(a, 'body.lot', 'lot', lot))) return
    await balanceHolds(a as Admission, 'body.kg')
    await afterLot(a, 'body.on', lot, on)
  },
  'lot.split': splitHolds,
  'lot.rework': reworkHolds,
  'lot.move': async (a) => void (await mustBeKnown(a, 'body.lot', 'lot', a.draft.body.lot)),
  'lot.treat': treatmentHolds,
  'room.add': (a) => mustBeNew(a, 'body.room', 'room', a.draft.body.room),
  'batch.place': async (a) => {
    await mustBeKnown(a, 'body.batch', 'batch', a.draft.body.batch)
    await mustBeKnown(a, 'body.room', 'room', a.draft.body.room)
  },
  'business.add': (a) => mustBeNew(a, 'body.business', 'business', a.draft.body.business),
  'order.take': orderHolds,
  'order.close': closingHolds,
  'price.set': priceHolds,
  'price.sell': sellingPriceHolds,
  'plan.resource': resourceHolds,
  'recipe.save': recipeVersionIsNext,
  'batch.plan': planHolds,
  'batch.weigh': weighingHolds,
  'batch.measure': async (a) => {
    await mustBeKnown(a, 'body.batch', 'batch', a.draft.body.batch)
    await mustBeKnown(a, 'body.instrument', 'instrument', a.draft.body.instrument)
  },
  'batch.curve': async (a) => {
    const { batch, file, channels } = a.draft.body
    await mustBeKnown(a, 'body.batch', 'batch', batch)
    if ((await a.sql.all('select 1 from file where sha256 = ?', [file])).length === 0)
      a.fault('body.file', 'is not a file of the record; allowed: the SHA-256 of a file put there before')
    for (const [i, channel] of channels.entries())
      await mustBeKnown(a, `body.channels[${i}].instrument`, 'instrument', channel.instrument)
  },
  'batch.decide': async (a) => {
    if (await mustBeKnown(a, 'body.batch', 'batch', a.draft.body.batch)) await secondPerson(a)
  },
  'batch.pack': async (a) => {
    const { batch, pack, count, on } = a.draft.body
    await mustBeNew(a, 'body.pack', 'pack', pack)
    if (await mustBeKnown(a, 'body.batch', 'batch', batch)) await afterBatch(a, 'body.on', batch, on)
    const [row] = a.old ? await a.sql.all<{ shipped: number }>('select shipped from pack where pack = ?', [pack]) : []
    if (row && row.shipped > count)
      a.fault(
        'body.count',
        `is ${count}, and ${row.shipped} of pack ${pack} have left; allowed: at least ${row.shipped}`,
      )
  },
  'pack.ship': shipmentHolds,
  'recall.drill': async (a) => {
    const { drill, subject, of, began, ended } = a.draft.body
    await mustBeNew(a, 'body.drill', 'drill', drill)
    await mustBeKnown(a, 'body.of', subject, of)
    if (Date.parse(ended) < Date.parse(began))
      a.fault('body.ended', `is ${ended}, before it began; allowed: ${began} or later`)
  },
  'label.approve': async (a) => {
    const { recipe, version, batch } = a.draft.body
    await mustBeKnown(a, 'body.batch', 'batch', batch)
    if (!(await mustBeKnown(a, 'body.recipe', 'recipe', recipe))) return
    if (!(await stands(a.sql, 'recipe.save', recipe, String(version))))
      a.fault('body.version', `is ${version}, which recipe ${recipe} does not have; allowed: a version saved before`)
  },
  'hazard.sign': async (a) => {
    const { recipe, version, file } = a.draft.body
    if (!(await mustBeKnown(a, 'body.recipe', 'recipe', recipe))) return
    if (!(await stands(a.sql, 'recipe.save', recipe, String(version))))
      a.fault('body.version', `is ${version}, which recipe ${recipe} does not have; allowed: a version saved before`)
    if ((await a.sql.all('select 1 from file where sha256 = ?', [file])).length === 0)
      a.fault('body.file', 'is not a file of the record; allowed: the SHA-256 of a file put there before')
  },
  'deviation.open': async (a) => {
    await mustBeNew(a, 'body.deviation', 'deviation', a.draft.body.deviation)
    for (const [i, { type, id }] of a.draft.body.about.entries()) await mustBeKnown(a, `body.about[${i}].id`, type, id)
  },
  'deviation.act': openStill,
  'deviation.close': deviationClosable,
  'doubt.settle': doubtHolds,
  'photo.attach': photoHolds,
  'entry.withdraw': async () => undefined,
}
