import { findMaterial } from '@forcemeat/craft/materials/materials'
import type { KitchenFacts, Recall } from '@forcemeat/ledger'
import type { Cell } from './csv.ts'

export const recallForms = ['eu', 'ca', 'us'] as const
export type RecallForm = (typeof recallForms)[number]
export const recallParts = ['consignments', 'inputs', 'batches'] as const
export type RecallPart = (typeof recallParts)[number]

/** What each law asks for, and how its text was come by. */
export const formSources: Readonly<Record<RecallForm, string>> = {
  eu: 'Regulation (EC) 178/2002 Art. 18; Implementing Regulation (EU) 931/2011 Art. 3 (food of animal origin)',
  ca: 'Safe Food for Canadians Regulations SOR/2018-108 s. 90–92 (within 24 hours, one file, plain text)',
  us: '9 CFR 320.1(b)(1) (from memory, to be confirmed against the text); 21 CFR 1 Subpart S does not list meat',
}

/** Stands where the record lacks what a form asks for; never an empty cell. */
export const notRecorded = 'not recorded'
const said = (text: string | undefined): string => (text === undefined || text.trim() === '' ? notRecorded : text)

type Column<T> = readonly [head: string, cell: (row: T) => Cell]
type Table = { readonly heads: readonly string[]; readonly rows: readonly (readonly Cell[])[] }
const table = <T>(rows: readonly T[], columns: readonly Column<T>[]): Table => ({
  heads: columns.map(([head]) => head),
  rows: rows.map((row) => columns.map(([, cell]) => cell(row))),
})

const kilos = (kg: number): number => Number(kg.toFixed(3))
const maker = (kitchen: KitchenFacts | undefined) => ({
  name: said(kitchen?.name),
  address: said(kitchen?.address ?? kitchen?.place),
})

/** Consignments that left, with the fields of a place's tracing rule. */
function consignments(recall: Recall, kitchen: KitchenFacts | undefined, form: RecallForm): Table {
  const { name, address } = maker(kitchen)
  type Row = Recall['consignments'][number]
  const to: readonly Column<Row>[] = [
    ['receiver name', (c) => said(c.to)],
    ['receiver address', (c) => said(c.customer?.address)],
    ['receiver contact', (c) => said(c.customer?.contact)],
  ]
  const columns: Readonly<Record<RecallForm, readonly Column<Row>[]>> = {
    eu: [
      ['description of the food', (c) => said(c.recipe)],
      ['quantity kg', (c) => kilos(c.kg)],
      ['packs', (c) => c.count],
      ['dispatching operator name', () => name],
      ['dispatching operator address', () => address],
      ['consignor (owner) if different', () => 'the same'],
      ...to,
      ['consignee (owner) if different', () => 'the same'],
      ['lot reference', (c) => `${c.batch} / ${c.pack}`],
      ['date of dispatch', (c) => c.on],
      ['use by', (c) => said(c.useBy)],
    ],
    ca: [
      ['common name', (c) => said(c.recipe)],
      ['lot code', (c) => `${c.batch} / ${c.pack}`],
      ['maker name', () => name],
      ['maker principal place of business', () => address],
      ['provided to name', (c) => said(c.to)],
      ['provided to address', (c) => said(c.customer?.address)],
      ['provided to contact', (c) => said(c.customer?.contact)],
      ['date provided', (c) => c.on],
      ['quantity kg', (c) => kilos(c.kg)],
      ['packs', (c) => c.count],
    ],
    us: [
      ['name or description of article', (c) => said(c.recipe)],
      ['net weight lb', (c) => Number((c.kg / 0.45359237).toFixed(2))],
      ['net weight kg', (c) => kilos(c.kg)],
      ['outside containers', (c) => c.count],
      ['buyer name', (c) => said(c.to)],
      ['buyer address', (c) => said(c.customer?.address)],
      ['buyer contact', (c) => said(c.customer?.contact)],
      ['method of shipment', () => notRecorded],
      ['date of shipment', (c) => c.on],
      ['carrier name and address', () => notRecorded],
      ['lot code', (c) => `${c.batch} / ${c.pack}`],
      ['establishment', () => said(kitchen?.approval)],
    ],
  }
  return table(recall.consignments, columns[form])
}

/** Lots affected and lots behind them, one step back: from whom, when, how much. */
function inputs(recall: Recall): Table {
  const ahead = new Set(recall.lots.map((l) => l.lot))
  const suppliers = new Map(recall.suppliers.map((s) => [s.name.toLowerCase(), s.supplier]))
  const all = [...recall.lots, ...recall.behind.lots.filter((l) => !ahead.has(l.lot))]
  return table(all, [
    ['lot', (l) => l.lot],
    ['food', (l) => findMaterial(l.material)?.name ?? l.material],
    [
      'where it came from',
      (l) =>
        l.origin === undefined
          ? 'received'
          : 'lot' in l.origin
            ? `part of lot ${l.origin.lot}`
            : `rework of batch ${l.origin.batch}`,
    ],
    ['supplier name', (l) => (l.origin && 'batch' in l.origin ? 'own kitchen' : said(l.supplier))],
    [
      'supplier address',
      (l) =>
        l.origin && 'batch' in l.origin ? 'own kitchen' : said(suppliers.get(l.supplier?.toLowerCase() ?? '')?.address),
    ],
    ['supplier lot', (l) => said(l.supplierLot)],
    ['date received', (l) => l.on],
    ['quantity kg', (l) => kilos(l.kg)],
    ['left in stock kg', (l) => kilos(l.balanceKg)],
    ['affected', (l) => (ahead.has(l.lot) ? 'yes' : 'lies behind')],
  ])
}

/** Mass balance of each batch affected. */
const batches = (recall: Recall): Table =>
  table(recall.batches, [
    ['batch', (b) => b.batch],
    ['product', (b) => b.recipeName],
    ['made on', (b) => b.on],
    ['state', (b) => b.state],
    ['steps away', (b) => recall.level.batches[b.batch] ?? 0],
    ['weighed in kg', (b) => kilos(b.balance.inKg)],
    ['packed kg', (b) => kilos(b.balance.packedKg)],
    ['rework kg', (b) => kilos(b.balance.reworkKg)],
    ['difference kg', (b) => kilos(b.balance.differenceKg)],
    ['made and not packed kg, at most, before losses', (b) => kilos(Math.max(0, b.balance.differenceKg))],
    ['shipped kg', (b) => kilos(b.balance.shippedKg)],
  ])

/** One table of a recall in the form a place's rule asks for. */
export const recallTable = (
  recall: Recall,
  kitchen: KitchenFacts | undefined,
  form: RecallForm,
  part: RecallPart,
): Table =>
  part === 'consignments' ? consignments(recall, kitchen, form) : part === 'inputs' ? inputs(recall) : batches(recall)

/** How many cells of the consignments a form asks for the record does not hold. */
export const gapsOf = ({ rows }: Table): number => rows.flat().filter((c) => c === notRecorded).length
