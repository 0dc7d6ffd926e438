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

/** Derived tables that are not what the entries make them. Rebuilds inside a transaction that is always undone; nothing is written. */
export async function viewsThatDiffer(store: Store): Promise<string[]> {
  const differing: string[] = []
  try {
    await store.transaction(async (sql) => {
      const before = new Map<string, string>()
      for (const name of viewTables) before.set(name, await digest(sql, name))
      await fillViews(store, sql)
      for (const name of viewTables) if ((await digest(sql, name)) !== before.get(name)) differing.push(name)
      throw undo
    })
  } catch (error) {
    if (error !== undo) throw error
  }
  return differing
}
