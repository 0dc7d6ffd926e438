import { findMaterial } from '@forcemeat/craft/materials/materials'
import type { Drill, KitchenFacts, Recall } from '@forcemeat/ledger'
import type { Content, DocumentDefinition } from 'pdfmake'
import { formSources, gapsOf, recallTable, type RecallForm } from '../recall/forms.ts'
import { weight, type System } from './amounts.ts'
import { caution, factRow, heading, ruled, sheet, signatures, contentWidth, type Frame } from './frame.ts'

const th = (text: string, right = false): Content => ({ text, style: 'th', ...(right ? { alignment: 'right' } : {}) })
const td = (text: string, right = false): Content => ({ text, fontSize: 9, ...(right ? { alignment: 'right' } : {}) })

const grid = (
  widths: readonly (string | number)[],
  heads: readonly Content[],
  rows: readonly (readonly Content[])[],
): Content => ({
  table: { headerRows: 1, widths: [...widths], body: [[...heads], ...rows.map((r) => [...r])] },
  layout: ruled,
})

const word = { lot: 'Lot', pack: 'Pack', batch: 'Batch' } as const

function balances(r: Recall, s: System): Content[] {
  return [
    heading('Batches and their mass balance'),
    grid(
      ['*', 'auto', 'auto', 'auto', 'auto', 'auto', 'auto'],
      [
        th('Batch'),
        th('Made'),
        th('In', true),
        th('Packed', true),
        th('Rework', true),
        th('Difference', true),
        th('Shipped', true),
      ],
      r.batches.map((b) => [
        {
          stack: [
            { text: `${b.batch}, ${b.state}`, fontSize: 9, bold: true },
            { text: b.recipeName, style: 'small' },
          ],
        },
        td(b.on),
        td(weight(b.balance.inKg, s), true),
        td(weight(b.balance.packedKg, s), true),
        td(weight(b.balance.reworkKg, s), true),
        td(weight(b.balance.differenceKg, s), true),
        td(weight(b.balance.shippedKg, s), true),
      ]),
    ),
    {
      text: 'Difference: weighed in, less packed and rework. Loss in smoking, cooking and drying, trim and error are in it; it is shown, not judged.',
      style: 'small',
      margin: [0, 3, 0, 0],
    },
  ]
}

function lots(r: Recall, s: System): Content[] {
  const ahead = new Set(r.lots.map((l) => l.lot))
  const all = [...r.lots, ...r.behind.lots.filter((l) => !ahead.has(l.lot))]
  return [
    heading('Lots: affected, and what lies behind them'),
    grid(
      ['auto', '*', '*', 'auto', 'auto', 'auto', 'auto'],
      [th('Lot'), th('Food'), th('From'), th('In on'), th('Quantity', true), th('Left', true), th('')],
      all.map((l) => [
        td(l.lot),
        td(findMaterial(l.material)?.name ?? l.material),
        td(
          l.origin === undefined
            ? `${l.supplier ?? 'supplier not recorded'}${l.supplierLot ? `, ${l.supplierLot}` : ''}`
            : 'lot' in l.origin
              ? `part of ${l.origin.lot}`
              : `rework of ${l.origin.batch}`,
        ),
        td(l.on),
        td(weight(l.kg, s), true),
        td(weight(l.balanceKg, s), true),
        td(ahead.has(l.lot) ? `step ${r.level.lots[l.lot] ?? 0}` : 'behind'),
      ]),
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
      ['Not accounted for', String(q.unaccountedPacks)],
    ]),
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
    heading('Who has it'),
    r.customers.length === 0
      ? { text: 'Nothing made of it has left the house.' }
      : grid(
          ['*', '*', '*', 'auto', 'auto'],
          [th('Customer'), th('Address'), th('Contact'), th('Packs', true), th('Weight', true)],
          r.customers.map((c) => [
            td(c.name),
            td(c.customer?.address ?? 'not recorded'),
            td(c.customer?.contact ?? 'not recorded'),
            td(String(c.count), true),
            td(weight(c.kg, s), true),
          ]),
        ),
    ...(r.consignments.length === 0
      ? []
      : [
          heading('Consignments'),
          grid(
            ['auto', 'auto', '*', '*', 'auto', 'auto', 'auto'],
            [th('On'), th('Pack'), th('Batch, product'), th('To'), th('Packs', true), th('Weight', true), th('Use by')],
            r.consignments.map((c) => [
              td(c.on),
              td(c.pack),
              td(`${c.batch}, ${c.recipe}`),
              td(c.to),
              td(String(c.count), true),
              td(weight(c.kg, s), true),
              td(c.useBy ?? 'not recorded'),
            ]),
          ),
          {
            text: `Fields after ${formSources[form]}. As a file: forcemeat recall, or the page of this recall.`,
            style: 'small',
            margin: [0, 3, 0, 0],
          } as Content,
        ]),
    ...balances(r, s),
    ...lots(r, s),
    ...(mine.length === 0
      ? []
      : [
          heading('Drills and recalls recorded'),
          grid(
            ['auto', 'auto', 'auto', 'auto', '*'],
            [th('Began'), th('Took'), th('Packs', true), th('Accounted for', true), th('By, note')],
            mine.map((d) => [
              td(`${d.began.slice(0, 16).replace('T', ' ')} UTC`),
              td(`${((Date.parse(d.ended) - Date.parse(d.began)) / 60_000).toFixed(1)} min`),
              td(String(d.packs), true),
              td(String(d.accounted), true),
              td(`${p.nameOf(d.by)}${d.trial ? ', drill' : ', recall'}${d.note ? `: ${d.note}` : ''}`),
            ]),
          ),
        ]),
    signatures(['Led by, date', 'Seen by, date'], contentWidth(p.size)),
  ]
  return sheet(p, 'Recall report', content)
}
