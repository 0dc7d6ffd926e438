import { sha256 } from '../canonical.ts'
import type { Sql, Store, Value } from '../dialect/store.ts'
import { fillViews } from './rebuild.ts'
import { viewTables } from '../tables.ts'

const keys: { readonly [name in (typeof viewTables)[number]]: readonly string[] } = {
  fact: ['seq'],
  about: ['seq', 'type', 'id'],
  superseded: ['seq'],
  lot: ['lot'],
  movement: ['seq', 'lot'],
  origin: ['lot'],
  batch: ['batch'],
  pack: ['pack'],
}
const chunk = 5000

/** A hash over every row of a table in the order of its key. */
async function digest(sql: Sql, name: keyof typeof keys): Promise<string> {
  const columns = keys[name]
  const order = columns.join(', ')
  const past = `(${order}) > (${columns.map(() => '?').join(', ')})`
  let [sum, from]: [string, Value[]] = ['', []]
  for (;;) {
    const rows = await sql.all<Record<string, Value>>(
      `select * from ${name}${from.length > 0 ? ` where ${past}` : ''} order by ${order} limit ?`,
      [...from, chunk],
    )
    sum = sha256(sum + JSON.stringify(rows))
    if (rows.length < chunk) return sum
    from = columns.map((c) => rows.at(-1)![c] ?? null)
  }
}

const undo = Symbol('undo')

/** Work inside a transaction that is always undone; nothing is written. */
async function undone(store: Store, work: (sql: Sql) => Promise<void>): Promise<void> {
  try {
    await store.transaction(async (sql) => {
      await work(sql)
      throw undo
    })
  } catch (error) {
    if (error !== undo) throw error
  }
}

/** A derived table that is not what the entries make it, and its first row that differs, by key, with what is wrong with it. */
export type DifferingView = { readonly table: string; readonly row: string; readonly because: string }

type Row = Record<string, Value>

const shown = (value: Value | undefined): string =>
  typeof value === 'string' || typeof value === 'number' ? String(value) : value ? 'bytes' : 'nothing'

/** The first row of a table, in the order of its key, that is not as it was. */
async function firstDifference(sql: Sql, name: keyof typeof keys): Promise<DifferingView> {
  const order = keys[name].join(', ')
  const only = async (a: string, b: string): Promise<Row | undefined> =>
    (await sql.all<Row>(`select * from (select * from ${a} except select * from ${b}) order by ${order} limit 1`))[0]
  const [held, made] = [await only('temp.held', name), await only(name, 'temp.held')]
  const keyOf = (row: Row): string => keys[name].map((k) => `${k} ${shown(row[k])}`).join(', ')
  if (held && made && keyOf(held) === keyOf(made)) {
    const column = Object.keys(made).find((c) => held[c] !== made[c])!
    return {
      table: name,
      row: keyOf(held),
      because: `${column} is ${shown(held[column])}, and the entries make it ${shown(made[column])}`,
    }
  }
  if (held) return { table: name, row: keyOf(held), because: 'the entries make no such row' }
  if (made) return { table: name, row: keyOf(made), because: 'the row is missing' }
  return { table: name, row: 'none', because: 'its rows are kept in another shape' }
}

/** Derived tables that are not what the entries make them, with the first row of each that differs. Writers wait meanwhile. */
export async function viewsThatDiffer(store: Store): Promise<DifferingView[]> {
  const names: (keyof typeof keys)[] = []
  await undone(store, async (sql) => {
    const before = new Map<string, string>()
    for (const name of viewTables) before.set(name, await digest(sql, name))
    await fillViews(store, sql)
    for (const name of viewTables) if ((await digest(sql, name)) !== before.get(name)) names.push(name)
  })
  const differing: DifferingView[] = []
  // A second filling, for the rows: only where something is wrong is a table worth copying.
  for (const name of names)
    await undone(store, async (sql) => {
      await sql.run(`create temp table held as select * from main.${name}`)
      await fillViews(store, sql)
      differing.push(await firstDifference(sql, name))
    })
  return differing
}
