import { createReadStream, existsSync } from 'node:fs'
import { mkdir, open, readdir, readFile, writeFile } from 'node:fs/promises'
import { join, resolve } from 'node:path'
import { createInterface } from 'node:readline'
import { InvalidInput, parseOrThrow } from '@forcemeat/craft/calculation'
import { flush } from './backup.ts'
import { canonical, genesis, sha256 } from './canonical.ts'
import type { Store } from './dialect/store.ts'
import { fromText, insertEntry, readHead } from './entry.ts'
import { facts, type Entry } from './facts.ts'
import { putFile } from './files.ts'
import { RecordError } from './record-error.ts'
import { rebuildViews } from './views/rebuild.ts'

export type ExportReport = {
  readonly folder: string
  readonly entries: number
  readonly head: string | null
  readonly files: number
}

const chunk = 2000

/** Write everything as plain files into a new or empty folder: one entry a line with its hash, the files by name, the head. */
export async function exportTo(
  store: Store,
  target: string,
  progress?: (done: number, total: number) => void,
): Promise<ExportReport> {
  const folder = resolve(target)
  if (existsSync(folder) && (await readdir(folder)).length > 0)
    throw new RecordError('not-empty', `${folder}: the folder holds something; name a new one.`)
  await mkdir(join(folder, 'files'), { recursive: true })
  const end = await readHead(store.sql)
  const out = await open(join(folder, 'entries.jsonl'), 'w')
  let last = 0
  try {
    while (last < (end?.seq ?? 0)) {
      const rows = await store.sql.all<{ seq: number; text: string; hash: string }>(
        'select seq, text, hash from entry where seq > ? and seq <= ? order by seq limit ?',
        [last, end!.seq, chunk],
      )
      if (rows.length === 0) break
      await out.write(rows.map((r) => `${canonical(fromText(r.text, r.hash))}\n`).join(''))
      last = rows.at(-1)!.seq
      progress?.(last, end!.seq)
    }
    await out.sync()
  } finally {
    await out.close()
  }
  const names = await store.sql.all<{ sha256: string }>('select sha256 from file order by sha256')
  for (const { sha256: name } of names) {
    const [row] = await store.sql.all<{ data: Uint8Array }>('select data from file where sha256 = ?', [name])
    const path = join(folder, 'files', name)
    await writeFile(path, row!.data)
    await flush(path)
  }
  const head = { entries: end?.seq ?? 0, head: end?.hash ?? null }
  await writeFile(join(folder, 'head.json'), `${JSON.stringify(head, null, 2)}\n`)
  await flush(folder)
  return { folder, ...head, files: names.length }
}

/** One line of an export as the entry that must follow `before`. @throws InvalidInput naming the line */
function lineToEntry(
  line: string,
  number: number,
  before: { seq: number; hash: string },
): { entry: Entry; text: string } {
  const refuse = (message: string): never => {
    throw new InvalidInput([{ path: `entries.jsonl line ${number}`, message }])
  }
  let entry: Entry
  try {
    entry = JSON.parse(line) as Entry
  } catch {
    return refuse('is not JSON; allowed: one entry a line')
  }
  const { hash, ...rest } = entry ?? {}
  const text = canonical(rest)
  if (sha256(text) !== hash)
    return refuse(`has the hash ${hash}, and its content ${sha256(text)}; allowed: entries as they were exported`)
  if (rest.seq !== before.seq + 1 || rest.prev !== before.hash)
    return refuse(`does not follow entry ${before.seq}; allowed: the whole chain in order`)
  if (!(rest.kind in facts))
    return refuse(
      `is of kind ${JSON.stringify(rest.kind)}, which this version does not know; allowed: a version that does`,
    )
  parseOrThrow<unknown>(facts[rest.kind], rest.body)
  return { entry, text }
}

/** Take an export into an empty record; all of it or nothing. */
export async function importFrom(
  store: Store,
  source: string,
  at: string,
  progress?: (done: number, total: number) => void,
): Promise<ExportReport> {
  const folder = resolve(source)
  const entriesFile = join(folder, 'entries.jsonl')
  if (!existsSync(entriesFile)) throw new RecordError('not-found', `${folder}: there is no entries.jsonl here.`)
  if (await readHead(store.sql))
    throw new RecordError('not-empty', 'this record holds entries; an export is taken into an empty one.')
  const noted = existsSync(join(folder, 'head.json'))
    ? (JSON.parse(await readFile(join(folder, 'head.json'), 'utf8')) as { entries: number; head: string | null })
    : undefined
  let files = 0
  for (const name of existsSync(join(folder, 'files')) ? await readdir(join(folder, 'files')) : []) {
    const data = await readFile(join(folder, 'files', name))
    if (sha256(data) !== name)
      throw new InvalidInput([
        {
          path: `files/${name}`,
          message: 'holds other bytes than its name says; allowed: files as they were exported',
        },
      ])
    await putFile(store, data, at)
    files += 1
  }
  const last = await store.transaction(async (sql) => {
    if (await readHead(sql))
      throw new RecordError('not-empty', 'this record holds entries; an export is taken into an empty one.')
    let before = { seq: 0, hash: genesis }
    let number = 0
    for await (const line of createInterface({ input: createReadStream(entriesFile), crlfDelay: Infinity })) {
      number += 1
      if (line === '') continue
      const { entry, text } = lineToEntry(line, number, before)
      await insertEntry(sql, entry, text)
      before = entry
      if (number % chunk === 0) progress?.(number, noted?.entries ?? number)
    }
    if (noted && (noted.entries !== before.seq || (before.seq > 0 && noted.head !== before.hash)))
      throw new InvalidInput([
        {
          path: 'head.json',
          message: `says ${noted.entries} entries, and entries.jsonl holds ${before.seq}; allowed: a whole export`,
        },
      ])
    return before
  })
  await rebuildViews(store)
  return { folder, entries: last.seq, head: last.seq === 0 ? null : last.hash, files }
}
