import { bodyOf } from '../entry.ts'
import type { Fact } from '../facts.ts'
import { priceKey } from '../price-key.ts'
import { mustBeKnown, mustBeNew, type Admission } from './report.ts'

export async function orderHolds(a: Admission<'order.take'>): Promise<void> {
  const { order, on, due, lines } = a.draft.body
  await mustBeNew(a, 'body.order', 'order', order)
  if (due < on) a.fault('body.due', `is ${due}, before the order was taken; allowed: ${on} or later`)
  for (const [i, line] of lines.entries()) await mustBeKnown(a, `body.lines[${i}].recipe`, 'recipe', line.recipe)
}

export async function closingHolds(a: Admission<'order.close'>): Promise<void> {
  const { order, on } = a.draft.body
  if (!(await mustBeKnown(a, 'body.order', 'order', order))) return
  const taken = await bodyOf<Fact<'order.take'>>(a.sql, 'order.take', order)
  if (taken && on < taken.on) a.fault('body.on', `is ${on}, before the order was taken; allowed: ${taken.on} or later`)
  if (a.old) return
  const closed = await bodyOf<Fact<'order.close'>>(a.sql, 'order.close', order)
  if (closed)
    a.fault(
      'body.order',
      `names order ${order}, which was ${closed.outcome} on ${closed.on}; allowed: an open order, or a correction of that entry`,
    )
}

/** A price of one thing, from one day: told once. */
async function priceIsNew(
  { sql, fault, old }: Pick<Admission, 'sql' | 'fault' | 'old'>,
  kind: 'price.set' | 'price.sell',
  subject: string,
  part: string,
): Promise<void> {
  if (old) return
  const rows = await sql.all<{ seq: number }>(
    'select seq from fact where subject = ? and kind = ? and part = ? limit 1',
    [subject, kind, part],
  )
  if (rows[0])
    fault(
      'body.from',
      `is a day from which entry ${rows[0].seq} gives a price of ${subject} already; allowed: another day, or a correction of that entry`,
    )
}

export const priceHolds = (a: Admission<'price.set'>): Promise<void> =>
  priceIsNew(a, 'price.set', a.draft.body.material, priceKey(a.draft.body))

export async function sellingPriceHolds(a: Admission<'price.sell'>): Promise<void> {
  const { recipe } = a.draft.body
  if (await mustBeKnown(a, 'body.recipe', 'recipe', recipe))
    await priceIsNew(a, 'price.sell', recipe, priceKey(a.draft.body))
}

export async function resourceHolds(a: Admission<'plan.resource'>): Promise<void> {
  const { resource, takes } = a.draft.body
  await mustBeNew(a, 'body.resource', 'resource', resource)
  const seen = new Set<string>()
  for (const [i, t] of takes.entries()) {
    const path = `body.takes[${i}]`
    if (t.of === 'recipe' && t.recipe === undefined)
      a.fault(`${path}.recipe`, 'is missing; allowed: the code of a recipe, where it is taken by one recipe alone')
    if (t.of !== 'recipe' && t.recipe !== undefined)
      a.fault(`${path}.recipe`, `is given, and the line is for ${t.of}; allowed: a recipe only where "of" is "recipe"`)
    for (const name of ['fromDay', 'forDays'] as const)
      if (!Number.isInteger(t[name] ?? 0)) a.fault(`${path}.${name}`, `is ${t[name]}; allowed: a whole number of days`)
    const of = t.of === 'recipe' ? `recipe ${t.recipe}` : t.of
    if (seen.has(of)) a.fault(`${path}.of`, `is ${of} a second time; allowed: one line for each`)
    seen.add(of)
    await mustBeKnown(a, `${path}.recipe`, 'recipe', t.recipe)
  }
}
