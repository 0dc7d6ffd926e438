import { existsSync, mkdirSync } from 'node:fs'
import { dirname, join, resolve } from 'node:path'
import { makeAppender } from './append.ts'
import { backupTo } from './backup.ts'
import { openSqlite } from './dialect/sqlite.ts'
import type { Store } from './dialect/store.ts'
import { refuseBrokenLog } from './dialect/sqlite-log.ts'
import { readHead } from './entry.ts'
import { getFile, listFiles, putFile } from './files.ts'
import { watchEntries } from './live.ts'
import type { Ledger } from './ledger.ts'
import { migrate } from './migrations.ts'
import { exportTo, importFrom } from './plain.ts'
import { batchOf, listBatches, slowAmong } from './read/batches.ts'
import { headOf, listEntries, oneEntry } from './read/entries.ts'
import { instrumentOf, instrumentsOf, kitchenOf, kitchenOn, peopleOf } from './read/kitchen.ts'
import { listLots, lotOf } from './read/lots.ts'
import { packOf } from './read/packs.ts'
import { listRecipes, recipeOf } from './read/recipes.ts'
import { deviationsOf } from './read/deviations.ts'
import { touchedByDoubt } from './read/doubt.ts'
import { factsOf } from './read/facts-of.ts'
import { ordersOf, packsHereOf, pricesOf, resourcesOf, sellingPricesOf } from './read/orders.ts'
import { photoOf, photosOf } from './read/photos.ts'
import { recall } from './read/recall.ts'
import { placementsOf, roomsOf } from './read/rooms.ts'
import { curvesOfFiles } from './read/shared-logs.ts'
import { todayOf } from './read/today.ts'
import { massBalance } from './read/mass-balance.ts'
import { traceLot, tracePack } from './read/trace.ts'
import { RecordError } from './record-error.ts'
import { entryOfKey, sentBefore } from './sent.ts'
import { viewVersion } from './tables.ts'
import { verifyRecord } from './verify.ts'
import { rebuildViews } from './views/rebuild.ts'

export type OpenOptions = ({ readonly folder: string } | { readonly file: string }) & {
  /** The clock, as an ISO instant in UTC; the machine's unless told. */
  readonly now?: () => string
  /** How often to look for entries another program records, ms, while somebody listens. */
  readonly watchMs?: number
}

/** Name of the database file in a record's folder. */
export const recordFile = 'record.db'
export const fileOf = (where: { readonly folder: string } | { readonly file: string }): string =>
  resolve('folder' in where ? join(where.folder, recordFile) : where.file)

/** Files up to this size have their pages looked over at each start; larger ones by `verify`. */
const quickCheckBytes = 64 * 1024 * 1024

/** Damage is found here, before anybody works on; it is named and never repaired. */
async function refuseDamage(store: Store, file: string): Promise<void> {
  const damage = store.size() <= quickCheckBytes ? await store.damage('quick') : []
  if (damage.length === 0) return
  const { broken } = await verifyRecord(store, { pages: false, files: false })
  const entry = broken ? `; entry ${broken.seq} is the first that does not hold: it ${broken.because}` : ''
  throw new RecordError(
    'damaged',
    `${file}: the file is damaged (${damage.slice(0, 3).join('; ')}${entry}). Nothing was repaired; restore a backup.`,
  )
}

async function viewsAreCurrent(store: Store): Promise<boolean> {
  const [row] = await store.sql.all<{ version: string }>('select version from view_version')
  return row?.version === viewVersion
}

/** Open a record, making it where there is none. @throws RecordError when it is damaged, newer than the program, or cannot be written */
export async function openLedger(options: OpenOptions): Promise<Ledger> {
  const file = fileOf(options)
  const now = options.now ?? (() => new Date().toISOString())
  const today = () => now().slice(0, 10)
  const existed = existsSync(file)
  try {
    mkdirSync(dirname(file), { recursive: true })
  } catch (cause) {
    throw new RecordError('not-found', `${dirname(file)}: the folder cannot be made.`, { cause })
  }
  if (existed) await refuseBrokenLog(file, now())
  const store = await openSqlite({ file })
  try {
    if (existed) await refuseDamage(store, file)
    await migrate(store, {
      at: now(),
      beforeChange: async (last) => {
        if (await readHead(store.sql))
          await backupTo(store, `${file}.before-migration-${last}-${now().replaceAll(':', '')}`)
      },
    })
    if (!(await viewsAreCurrent(store))) await rebuildViews(store)
  } catch (error) {
    await store.close()
    throw error
  }
  const watch = watchEntries(store, options.watchMs ?? 500, (await readHead(store.sql))?.seq ?? 0)
  const appender = makeAppender(store, now, watch.committed)
  let closed = false
  const whileOpen =
    <A extends unknown[], T>(work: (...args: A) => Promise<T>) =>
    async (...args: A): Promise<T> => {
      if (closed) throw new RecordError('closed', `${file}: the record is closed.`)
      return work(...args)
    }
  return {
    file,
    append: whileOpen(appender.append),
    sentBefore: whileOpen((drafts) => sentBefore(store.sql, drafts)),
    entryOfKey: whileOpen((key) => entryOfKey(store.sql, key)),
    onAppend: watch.onAppend,
    putFile: whileOpen((data) => putFile(store, data, now())),
    getFile: whileOpen((name) => getFile(store, name)),
    files: whileOpen(() => listFiles(store)),
    curvesOfFiles: whileOpen((names) => curvesOfFiles(store, names)),
    head: whileOpen(() => headOf(store)),
    entries: whileOpen((query) => listEntries(store, query)),
    entry: whileOpen((seq) => oneEntry(store, seq)),
    kitchen: whileOpen(() => kitchenOf(store)),
    kitchenOn: whileOpen((on) => kitchenOn(store, on)),
    people: whileOpen(() => peopleOf(store)),
    instruments: whileOpen((on = today()) => instrumentsOf(store, on)),
    instrument: whileOpen((id, on = today()) => instrumentOf(store, id, on)),
    lots: whileOpen((query) => listLots(store, query)),
    lot: whileOpen((id) => lotOf(store, id)),
    recipes: whileOpen(() => listRecipes(store)),
    recipe: whileOpen((id) => recipeOf(store, id)),
    batches: whileOpen((query) => listBatches(store, query)),
    slowAmong: whileOpen((batches) => slowAmong(store, batches)),
    batch: whileOpen((id) => batchOf(store, id)),
    pack: whileOpen((id) => packOf(store, id)),
    traceLot: whileOpen((id) => traceLot(store, id)),
    tracePack: whileOpen((id) => tracePack(store, id)),
    recall: whileOpen((subject) => recall(store, subject)),
    rooms: whileOpen(() => roomsOf(store)),
    placements: whileOpen(() => placementsOf(store)),
    orders: whileOpen(() => ordersOf(store)),
    prices: whileOpen(() => pricesOf(store)),
    sellingPrices: whileOpen(() => sellingPricesOf(store)),
    resources: whileOpen(() => resourcesOf(store)),
    packsHere: whileOpen(() => packsHereOf(store)),
    businesses: whileOpen(() => factsOf(store, 'business.add')),
    deviations: whileOpen((only) => deviationsOf(store, only)),
    photos: whileOpen((of, id) => photosOf(store, of, id)),
    photo: whileOpen((sha256) => photoOf(store, sha256)),
    drills: whileOpen(() => factsOf(store, 'recall.drill')),
    doubts: whileOpen((instrument) => touchedByDoubt(store, instrument)),
    massBalance: whileOpen((id) => massBalance(store, id)),
    today: whileOpen((on = today()) => todayOf(store, on)),
    verify: whileOpen((verifyOptions) => verifyRecord(store, verifyOptions)),
    rebuildViews: whileOpen((progress) => rebuildViews(store, progress)),
    backup: whileOpen((target, progress) => backupTo(store, target, progress)),
    exportTo: whileOpen((folder, progress) => exportTo(store, folder, progress)),
    importFrom: whileOpen((folder, progress) => importFrom(store, folder, now(), progress)),
    close: async () => {
      if (closed) return
      closed = true
      await appender.idle()
      await watch.stop()
      await store.close()
    },
  }
}
