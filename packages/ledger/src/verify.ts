import { genesis, sha256 } from './canonical.ts'
import { openSqlite } from './dialect/sqlite.ts'
import type { Store } from './dialect/store.ts'
import { readHead } from './entry.ts'
import { RecordError } from './record-error.ts'
import type { EntryTable } from './tables.ts'
import { viewsThatDiffer, type DifferingView } from './views/differ.ts'

export type Broken = {
  /** Number of the first entry that does not hold. */
  readonly seq: number
  readonly what: 'gap' | 'hash' | 'prev' | 'content' | 'unreadable'
  readonly because: string
}

export type VerifyReport = {
  readonly ok: boolean
  /** Entries that hold, from the first on. */
  readonly entries: number
  readonly head: string | null
  readonly broken?: Broken
  readonly files: {
    readonly count: number
    readonly broken: readonly { readonly sha256: string; readonly because: string }[]
  }
  /** What the database finds wrong with its own pages, as it words it. */
  readonly damage: readonly string[]
  /** Derived tables that are not what the entries make them; a rebuild sets them right. Empty when not asked for. */
  readonly views: readonly string[]
  /** The first row of each such table that differs, by its key, with what is wrong with it. */
  readonly viewRows: readonly DifferingView[]
}

export type VerifyOptions = {
  /** A head noted elsewhere, as on a printed record: the chain must reach it. A chain alone cannot show that its end was cut off. */
  readonly expect?: { readonly entries: number; readonly head: string }
  /** Hold the database's own pages too; costs a read of the whole file. On unless told. */
  readonly pages?: boolean
  readonly files?: boolean
  /** Hold the derived tables against the entries too, always or up to so many entries. Off unless told: writers wait meanwhile. */
  readonly views?: boolean | { readonly upTo: number }
  readonly progress?: (done: number, total: number) => void
}

type Row = Omit<EntryTable, 'send_key'> & { send_key: string | null }
type Content = { seq?: unknown; at?: unknown; by?: unknown; kind?: unknown; key?: unknown; prev?: unknown }

const chunk = 2000
const rest = (): Promise<void> => new Promise((resolve) => setImmediate(resolve))

/** What is wrong with a row that should follow `before`, if anything. */
function fault(row: Row, before: { seq: number; hash: string; at: string }): Broken | undefined {
  const broken = (what: Broken['what'], because: string): Broken => ({
    seq: what === 'gap' ? before.seq + 1 : row.seq,
    what,
    because,
  })
  if (row.seq !== before.seq + 1)
    return broken('gap', `entry ${before.seq + 1} is missing: after entry ${before.seq} comes entry ${row.seq}`)
  const digest = sha256(row.text)
  if (digest !== row.hash)
    return broken('hash', `its content has the hash ${digest}, and ${row.hash} was recorded: the entry was changed`)
  let content: Content
  try {
    content = JSON.parse(row.text) as Content
  } catch {
    return broken('content', 'its content is not JSON')
  }
  if (content.prev !== before.hash || row.prev !== before.hash)
    return broken(
      'prev',
      `names ${String(content.prev)} as the hash before it, and entry ${before.seq} has ${before.hash}`,
    )
  const columns = { seq: row.seq, at: row.at, by: row.author, kind: row.kind, key: row.send_key ?? undefined }
  for (const [name, value] of Object.entries(columns))
    if (content[name as keyof Content] !== value)
      return broken(
        'content',
        `its column for ${name} holds ${String(value)}, and its content ${String(content[name as keyof Content])}`,
      )
  if (row.at < before.at)
    return broken('content', `was recorded at ${row.at}, before the entry before it (${before.at})`)
  return undefined
}

async function verifyFiles(store: Store): Promise<VerifyReport['files']> {
  const broken: { sha256: string; because: string }[] = []
  let [count, last] = [0, '']
  for (;;) {
    // One file at a time: memory holds the largest, not all.
    const [row] = await store.sql.all<{ sha256: string; bytes: number; data: Uint8Array }>(
      'select sha256, bytes, data from file where sha256 > ? order by sha256 limit 1',
      [last],
    )
    if (!row) break
    count += 1
    last = row.sha256
    const digest = sha256(row.data)
    if (digest !== row.sha256)
      broken.push({ sha256: row.sha256, because: `its bytes have the hash ${digest}: the file was changed` })
    else if (row.data.byteLength !== row.bytes)
      broken.push({ sha256: row.sha256, because: `holds ${row.data.byteLength} bytes, and ${row.bytes} were recorded` })
    await rest()
  }
  const lost = await store.sql.all<{ id: string; seq: number }>(
    `select a.id, min(a.seq) as seq from about a left join file f on f.sha256 = a.id where a.type = 'file' and f.sha256 is null group by a.id`,
  )
  broken.push(
    ...lost.map(({ id, seq }) => ({ sha256: id, because: `is named by entry ${seq} and is not in the record` })),
  )
  return { count, broken }
}

/** Entries past a number, as far as they can be read, and why it went no further where a page of the database is damaged. */
async function readPast(store: Store, seq: number): Promise<{ rows: readonly Row[]; because?: string }> {
  const read = (past: number, most: number): Promise<Row[]> =>
    store.sql.all<Row>(
      'select seq, at, author, kind, send_key, prev, hash, text from entry where seq > ? order by seq limit ?',
      [past, most],
    )
  try {
    return { rows: await read(seq, chunk) }
  } catch (error) {
    if (!(error instanceof RecordError)) throw error
  }
  const rows: Row[] = []
  try {
    for (;;) {
      const [row] = await read(rows.at(-1)?.seq ?? seq, 1)
      if (!row || rows.length === chunk) return { rows }
      rows.push(row)
    }
  } catch (error) {
    if (!(error instanceof RecordError)) throw error
    return { rows, because: error.message }
  }
}

async function walk(store: Store, options: VerifyOptions): Promise<Pick<VerifyReport, 'entries' | 'head' | 'broken'>> {
  const total = (await readHead(store.sql).catch(() => undefined))?.seq ?? 0
  let before = { seq: 0, hash: genesis, at: '' }
  const soFar = () => ({ entries: before.seq, head: before.seq === 0 ? null : before.hash })
  const { expect } = options
  for (;;) {
    const { rows, because } = await readPast(store, before.seq)
    for (const row of rows) {
      const broken = fault(row, before)
      if (broken) return { ...soFar(), broken }
      if (expect && row.seq === expect.entries && row.hash !== expect.head)
        return {
          ...soFar(),
          broken: {
            seq: row.seq,
            what: 'hash',
            because: `has the hash ${row.hash}, and ${expect.head} was noted elsewhere`,
          },
        }
      before = { seq: row.seq, hash: row.hash, at: row.at }
    }
    if (because !== undefined) {
      const seq = before.seq + 1
      return { ...soFar(), broken: { seq, what: 'unreadable', because: `cannot be read: ${because}` } }
    }
    if (rows.length < chunk) break
    options.progress?.(before.seq, total)
    await rest()
  }
  if (expect && before.seq < expect.entries)
    return {
      ...soFar(),
      broken: {
        seq: before.seq + 1,
        what: 'gap',
        because: `the record ends at entry ${before.seq}, and ${expect.entries} were noted elsewhere`,
      },
    }
  return soFar()
}

/**
 * Walk the chain from its first entry, hold every file against its hash and the database against itself. Reads only; nothing is
 * repaired. Memory stays that of a few thousand entries.
 */
export async function verifyRecord(store: Store, options: VerifyOptions = {}): Promise<VerifyReport> {
  const damage: string[] = options.pages === false ? [] : await store.damage('full')
  const readable = async <T>(work: () => Promise<T>, otherwise: T): Promise<T> => {
    try {
      return await work()
    } catch (error) {
      damage.push(error instanceof Error ? error.message : String(error))
      return otherwise
    }
  }
  const chain = await readable(() => walk(store, options), { entries: 0, head: null })
  const none = { count: 0, broken: [] }
  const files = options.files === false ? none : await readable(() => verifyFiles(store), none)
  const { views: asked = false } = options
  const wanted = typeof asked === 'boolean' ? asked : chain.entries <= asked.upTo
  const viewRows = wanted && chain.broken === undefined ? await readable(() => viewsThatDiffer(store), []) : []
  const views = viewRows.map((v) => v.table)
  const ok = chain.broken === undefined && damage.length === 0 && files.broken.length === 0 && views.length === 0
  return { ok, ...chain, files, damage, views, viewRows }
}

/** Walk the chain of a record that another part of the program has open; through a connection of its own that only reads. @throws RecordError */
export async function verifyFile(file: string): Promise<VerifyReport> {
  const store = await openSqlite({ file, readOnly: true })
  try {
    return await verifyRecord(store, { pages: false, files: false })
  } finally {
    await store.close()
  }
}
