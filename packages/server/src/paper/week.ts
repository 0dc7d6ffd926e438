import { findMaterial } from '@forcemeat/craft/materials/materials'
import type { Content, DocumentDefinition } from 'pdfmake'
import type { Week } from '../plan/week.ts'
import { weight, type System } from './amounts.ts'
import { factRow, heading, ruled, sheet, stop, type Frame } from './frame.ts'

export type WeekPaper = Frame & { readonly week: Week }

/** Rows of one table that fit beside the rest of a one-page sheet; what is over is told, and stands on the page. */
const mostRows = 40

const th = (text: string, right = false): Content => ({ text, style: 'th', ...(right ? { alignment: 'right' } : {}) })
const td = (text: string, right = false, bold = false): Content => ({
  text,
  fontSize: 9,
  bold,
  // A date or a weight is never broken; only lists of lots and names are.
  noWrap: text.length <= 14,
  ...(right ? { alignment: 'right' } : {}),
})

const materialName = (id: string): string => findMaterial(id)?.name ?? id
const weekday = new Intl.DateTimeFormat('en-GB', { weekday: 'short', day: 'numeric', month: 'short', timeZone: 'UTC' })
const dayOf = (on: string): string => weekday.format(new Date(`${on}T00:00:00Z`))

const table = (widths: readonly (string | number)[], head: Content[], rows: Content[][]): Content => ({
  table: { headerRows: 1, widths: [...widths], body: [head, ...rows.slice(0, mostRows)] },
  layout: ruled,
})
const more = (rows: readonly unknown[]): Content[] =>
  rows.length > mostRows ? [{ text: `and ${rows.length - mostRows} more, on the page`, style: 'small' }] : []

/** The plan of the days to come: what to make when from which lots, orders at risk, what to buy, what expires. */
export function weekSheet(p: WeekPaper): DocumentDefinition {
  const { week } = p
  const system: System = p.kitchen.units
  const kg = (x: number): string => weight(Number(x.toPrecision(4)), system)
  const nameOf = (recipe: string): string => week.products.find((x) => x.recipe === recipe)?.name ?? recipe
  const plan = week.plan
  const late = week.lines.filter((l) => l.lateKg > 0 || l.shortKg > 0)
  const content: Content[] = [
    { text: `Plan from ${dayOf(week.from)}`, style: 'title' },
    factRow([
      ['Days', String(week.days)],
      ['Order lines', String(week.lines.length)],
      ['Batches', String(plan?.batches.length ?? 0)],
      ['Late or short', String(late.length)],
    ]),
    ...(plan === undefined ? [heading('Batches'), { text: 'No open order needs a batch in these days.' }] : []),
    ...(plan?.status === 'unsolved' ? [{ text: `No plan: ${plan.because}.`, color: stop, bold: true }] : []),
    ...(plan && plan.batches.length > 0 ? batches(plan, nameOf, kg) : []),
    ...(week.lines.length > 0 ? orders(week, nameOf, kg) : []),
    ...(plan && plan.toBuy.length > 0
      ? [
          heading('To buy'),
          table(
            ['*', 'auto', 'auto'],
            [th('Material'), th('At least', true), th('Here by')],
            plan.toBuy
              .toSorted((a, b) => a.by.localeCompare(b.by))
              .map((b) => [td(materialName(b.material)), td(kg(b.kg), true), td(dayOf(b.by))]),
          ),
          ...more(plan.toBuy),
        ]
      : []),
    ...(plan && plan.expiring.length > 0
      ? [
          heading('Lots the plan leaves past their date'),
          table(
            ['auto', '*', 'auto', 'auto'],
            [th('Lot'), th('Material'), th('Left', true), th('Use by')],
            plan.expiring.map((l) => [td(l.lot), td(materialName(l.material)), td(kg(l.kg), true), td(dayOf(l.useBy))]),
          ),
        ]
      : []),
    ...(week.notes.length > 0 ? [heading('To know'), { ul: [...week.notes], fontSize: 9 }] : []),
  ]
  return sheet(p, 'Week plan', content)
}

function batches(
  plan: NonNullable<Week['plan']>,
  nameOf: (recipe: string) => string,
  kg: (x: number) => string,
): Content[] {
  const rows = plan.batches.map((b, i) => [
    td(i > 0 && plan.batches[i - 1]!.start === b.start ? '' : dayOf(b.start), false, true),
    td(nameOf(b.product)),
    td(kg(b.mixKg), true),
    td(kg(b.finishedKg), true),
    td(dayOf(b.ready)),
    td(b.lots.map((l) => `${l.lot} ${kg(l.kg)}`).join(', ') || 'to be bought'),
  ])
  return [
    heading('Batches by day'),
    table(
      ['auto', 'auto', 'auto', 'auto', 'auto', '*'],
      [th('Start'), th('Product'), th('Mix', true), th('Finished', true), th('Ready'), th('From lots')],
      rows,
    ),
    ...more(rows),
  ]
}

function orders(week: Week, nameOf: (recipe: string) => string, kg: (x: number) => string): Content[] {
  return [
    heading('Orders'),
    table(
      ['auto', '*', '*', 'auto', 'auto', 'auto'],
      [th('Order'), th('Customer'), th('Product'), th('Weight', true), th('Due'), th('What becomes of it')],
      week.lines.map((l) => {
        const bad = l.lateKg > 0 || l.shortKg > 0
        const said = [
          ...(l.lateKg > 0 ? [`${kg(l.lateKg)} late${l.done ? `, ${dayOf(l.done)}` : ''}`] : []),
          ...(l.shortKg > 0 ? [`${kg(l.shortKg)} short`] : []),
        ].join('; ')
        return [
          td(l.id),
          td(l.customer),
          td(nameOf(l.recipe)),
          td(kg(l.kg), true),
          td(dayOf(l.due)),
          { text: bad ? said : 'in time', fontSize: 9, ...(bad ? { color: stop, bold: true } : {}) },
        ]
      }),
    ),
    ...more(week.lines),
  ]
}
