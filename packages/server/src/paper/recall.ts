import { findMaterial } from '@forcemeat/craft/materials/materials'
import type { Drill, KitchenFacts, Recall } from '@forcemeat/ledger'
import type { Content, DocumentDefinition } from 'pdfmake'
import { formSources, gapsOf, notRecorded, recallTable, type RecallForm } from '../recall/forms.ts'
import { paperDay, paperInstant } from './dates.ts'
import { weight } from './amounts.ts'
import { caution, contentWidth, factRow, heading, sheet, signatures, type Frame } from './frame.ts'
import { longTable } from './long-table.ts'

const word = { lot: 'Lot', pack: 'Pack', batch: 'Batch' } as const

function customers(r: Recall, p: Frame): Content {
  if (r.customers.length === 0)
    return { stack: [heading('Who has it'), 'Nothing made of it has left the house.'], unbreakable: true }
  return longTable(
    'Who has it',
    [
      { head: 'Customer', wide: true },
      { head: 'Address', wide: true },
      { head: 'Contact', wide: true },
      { head: 'Packs', right: true },
      { head: 'Weight', right: true },
    ],
    r.customers.map((c) => [
      c.name,
      c.customer?.address ?? notRecorded,
      c.customer?.contact ?? notRecorded,
      String(c.count),
      weight(c.kg, p.kitchen.units),
    ]),
    p.size,
  )
}

function consignments(r: Recall, p: Frame, form: RecallForm): Content[] {
  if (r.consignments.length === 0) return []
  return [
    longTable(
      'Consignments',
      [
        { head: 'On' },
        { head: 'Pack' },
        { head: 'Batch, product', wide: true },
        { head: 'To', wide: true },
        { head: 'Packs', right: true },
        { head: 'Weight', right: true },
        { head: 'Use by' },
      ],
      r.consignments.map((c) => [
        paperDay(c.on),
        c.pack,
        `${c.batch}, ${c.recipe}`,
        c.to,
        String(c.count),
        weight(c.kg, p.kitchen.units),
        c.useBy === undefined ? notRecorded : paperDay(c.useBy),
      ]),
      p.size,
    ),
    {
      text: `Fields after ${formSources[form]}. As a file: forcemeat recall, or the page of this recall.`,
      style: 'small',
      margin: [0, 3, 0, 0],
    },
  ]
}

function balances(r: Recall, { kitchen: { units: s }, size }: Frame): Content[] {
  if (r.batches.length === 0) return []
  return [
    longTable(
      'Batches and their mass balance',
      [
        { head: 'Batch', wide: true },
        { head: 'Product', wide: true },
        { head: 'Made' },
        { head: 'In', right: true },
        { head: 'Packed', right: true },
        { head: 'Rework', right: true },
        { head: 'Difference', right: true },
        { head: 'Shipped', right: true },
      ],
      r.batches.map(({ batch, state, recipeName, on, balance: b }) => [
        `${batch}, ${state}`,
        recipeName,
        paperDay(on),
        ...[b.inKg, b.packedKg, b.reworkKg, b.differenceKg, b.shippedKg].map((kg) => weight(kg, s)),
      ]),
      size,
    ),
    {
      text: 'Difference: weighed in, less packed and rework. Loss in smoking, cooking and drying, trim and error are in it; it is shown, not judged.',
      style: 'small',
      margin: [0, 3, 0, 0],
    },
  ]
}

/** How far from what is recalled a lot lies. */
const stepWords = (steps: number): string =>
  steps === 0 ? 'what is recalled' : `${steps} ${steps === 1 ? 'step' : 'steps'} on`

function lots(r: Recall, { kitchen: { units: s }, size }: Frame): Content[] {
  const ahead = new Set(r.lots.map((l) => l.lot))
  const all = [...r.lots, ...r.behind.lots.filter((l) => !ahead.has(l.lot))]
  if (all.length === 0) return []
  return [
    longTable(
      'Lots: affected, and what lies behind them',
      [
        { head: 'Lot' },
        { head: 'Food', wide: true },
        { head: 'From', wide: true },
        { head: 'In on' },
        { head: 'Quantity', right: true },
        { head: 'Left', right: true },
        { head: 'How it is in it' },
      ],
      all.map((l) => [
        l.lot,
        findMaterial(l.material)?.name ?? l.material,
        l.origin === undefined
          ? `${l.supplier ?? 'supplier not recorded'}${l.supplierLot ? `, ${l.supplierLot}` : ''}`
          : 'lot' in l.origin
            ? `part of ${l.origin.lot}`
            : `rework of ${l.origin.batch}`,
        paperDay(l.on),
        weight(l.kg, s),
        weight(l.balanceKg, s),
        ahead.has(l.lot) ? stepWords(r.level.lots[l.lot] ?? 0) : 'lies behind it',
      ]),
      size,
    ),
  ]
}

function drills(mine: readonly Drill[], p: RecallPaper): Content[] {
  if (mine.length === 0) return []
  return [
    longTable(
      'Drills and recalls recorded',
      [
        { head: 'Began' },
        { head: 'Took' },
        { head: 'Packs', right: true },
        { head: 'Accounted for', right: true },
        { head: 'By, note', wide: true },
      ],
      mine.map((d) => [
        paperInstant(d.began),
        `${((Date.parse(d.ended) - Date.parse(d.began)) / 60_000).toFixed(1)} min`,
        String(d.packs),
        String(d.accounted),
        `${p.nameOf(d.by)}${d.trial ? ', drill' : ', recall'}${d.note ? `: ${d.note}` : ''}`,
      ]),
      p.size,
    ),
  ]
}

export type RecallPaper = Frame & {
  readonly recall: Recall
  readonly kitchenFacts: KitchenFacts | undefined
  readonly form: RecallForm
  readonly drills: readonly Drill[]
  readonly nameOf: (person: string) => string
}

/** The recall report: what is affected, who has it, what is accounted for and what is not. */
export function recallReport(p: RecallPaper): DocumentDefinition {
  const { recall: r, form } = p
  const s = p.kitchen.units
  const q = r.quantity
  const out = recallTable(r, p.kitchenFacts, form, 'consignments')
  const gaps = gapsOf(out)
  const mine = p.drills.filter((d) => d.subject === r.subject.type && d.of === r.subject.id)
  const content: Content[] = [
    { text: `Recall: ${word[r.subject.type].toLowerCase()} ${r.subject.id}`, style: 'title' },
    factRow([
      ['Batches', String(r.batches.length)],
      ['Packs made', String(q.packs)],
      ['Left the house', `${q.shipped} (${weight(q.shippedKg, s)})`],
      ['Here', `${q.here} (${weight(q.hereKg, s)})`],
      ['Packs not accounted for', String(q.unaccountedPacks)],
    ]),
    factRow([['Made and not packed', `at most ${weight(q.notPackedKg, s)}, before losses`]]),
    factRow([
      ['Customers', String(r.customers.length)],
      ['Lots affected', String(r.lots.length)],
      ['Of them in stock', weight(q.stockKg, s)],
      ['Suppliers behind', r.suppliers.map((x) => x.name).join(', ') || 'none named'],
    ]),
    { text: '', margin: [0, 4, 0, 0] },
    caution(
      'Hold what is here',
      'Set aside every pack and lot on this list before anything else leaves, and tell the authority of your place as its law asks. This report says what the record holds; it does not decide whether a recall is needed.',
    ),
    ...(gaps > 0
      ? [
          caution(
            'The record has gaps',
            `${gaps} fields that the tracing rule asks for are not recorded; they read “not recorded” below.`,
          ),
        ]
      : []),
    customers(r, p),
    ...consignments(r, p, form),
    ...balances(r, p),
    ...lots(r, p),
    ...drills(mine, p),
    signatures(['Led by, date', 'Seen by, date'], contentWidth(p.size)),
  ]
  // The tables keep their titles with their rows themselves: looking for lone headings would lay out every page again for each one found.
  const { pageBreakBefore: _, ...definition } = sheet(p, 'Recall report', content)
  return definition
}
