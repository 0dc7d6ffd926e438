import type { BackupReport } from './backup.ts'
import type { Draft, Entry } from './facts.ts'
import type { ExportReport } from './plain.ts'
import type { StoredFile } from './files.ts'
import type { BatchesQuery, BatchFacts, BatchRecord } from './read/batches.ts'
import type { JudgedCheck } from './read/checks.ts'
import type { EntriesQuery, HeadOfRecord, ListedEntry } from './read/entries.ts'
import type { Deviation } from './read/deviations.ts'
import type { Touched } from './read/doubt.ts'
import type { Business, Drill, Recall, RecallSubject } from './read/recall.ts'
import type { RecordedFact } from './read/facts-of.ts'
import type { InstrumentFacts, KitchenFacts, PersonFacts } from './read/kitchen.ts'
import type { LotFacts, LotsQuery, Movement } from './read/lots.ts'
import type { OrderFacts, PackHere, PriceFacts, ResourceFacts, SellingPrice } from './read/orders.ts'
import type { PackFacts } from './read/packs.ts'
import type { Placement, RoomFacts } from './read/rooms.ts'
import type { RecipeFacts, RecipeVersion } from './read/recipes.ts'
import type { Today } from './read/today.ts'
import type { MassBalance } from './read/mass-balance.ts'
import type { LotTrace, PackTrace } from './read/trace.ts'
import type { VerifyOptions, VerifyReport } from './verify.ts'

/** An open record. Everything it gives back is plain JSON; every write is on the disk before its promise resolves. */
export type Ledger = {
  /** The database file. */
  readonly file: string

  /**
   * Record drafts together: all of them or none. Answers in the order given; a draft whose `key` was recorded before with the same
   * content is answered with the earlier entry. @throws InvalidInput with every fault of the first draft that has any, or of all that do not parse; RecordError when the disk fails
   */
  readonly append: (drafts: readonly Draft[]) => Promise<Entry[]>
  /** For each draft the entry it was recorded as before under its key, with the same content; `undefined` where it was not. */
  readonly sentBefore: (drafts: readonly unknown[]) => Promise<(Entry | undefined)[]>
  /** The entry recorded under a sender's key. */
  readonly entryOfKey: (key: string) => Promise<Entry | undefined>
  /** Called after each commit with its entries, oldest first; also for entries another program records. Returns how to stop. */
  readonly onAppend: (listener: (entries: readonly Entry[]) => void) => () => void

  readonly putFile: (data: Uint8Array) => Promise<StoredFile>
  readonly getFile: (sha256: string) => Promise<Uint8Array | undefined>
  readonly files: () => Promise<StoredFile[]>
  /** Curves of cooks and chills that stand on any of these files, in the order they were first recorded. */
  readonly curvesOfFiles: (sha256: readonly string[]) => Promise<RecordedFact<'batch.curve'>[]>

  readonly head: () => Promise<HeadOfRecord>
  readonly entries: (query?: EntriesQuery) => Promise<ListedEntry[]>
  readonly entry: (seq: number) => Promise<ListedEntry | undefined>
  readonly kitchen: () => Promise<KitchenFacts | undefined>
  /** The kitchen as it was told by the end of a day. */
  readonly kitchenOn: (on: string) => Promise<KitchenFacts | undefined>
  readonly people: () => Promise<PersonFacts[]>
  /** Instruments as they stand on a day; today unless told. */
  readonly instruments: (on?: string) => Promise<InstrumentFacts[]>
  readonly instrument: (
    id: string,
    on?: string,
  ) => Promise<(InstrumentFacts & { readonly checks: readonly JudgedCheck[] }) | undefined>
  readonly lots: (query?: LotsQuery) => Promise<LotFacts[]>
  readonly lot: (id: string) => Promise<(LotFacts & { readonly movements: readonly Movement[] }) | undefined>
  readonly recipes: () => Promise<RecipeFacts[]>
  readonly recipe: (
    id: string,
  ) => Promise<
    { readonly recipe: string; readonly newest: number; readonly versions: readonly RecipeVersion[] } | undefined
  >
  readonly batches: (query?: BatchesQuery) => Promise<BatchFacts[]>
  /** Those of some batches that are soured or dried by their recipe, what is in them or what was recorded of them. */
  readonly slowAmong: (batches: readonly string[]) => Promise<ReadonlySet<string>>
  readonly batch: (id: string) => Promise<BatchRecord | undefined>
  readonly pack: (id: string) => Promise<PackFacts | undefined>
  readonly traceLot: (lot: string) => Promise<LotTrace | undefined>
  readonly tracePack: (pack: string) => Promise<PackTrace | undefined>
  /** Everything a lot, a pack or a batch is in, through splits and rework, with what is accounted for. */
  readonly recall: (subject: RecallSubject) => Promise<Recall | undefined>
  readonly businesses: () => Promise<Business[]>
  /** Rooms with what hangs in them; and where batches were put, in the order of time. */
  readonly rooms: () => Promise<RoomFacts[]>
  readonly placements: () => Promise<Placement[]>
  /** Orders by their due date; prices in the order they came to hold; what a day's work takes room of; packs not yet sent. */
  readonly orders: () => Promise<OrderFacts[]>
  readonly prices: () => Promise<PriceFacts[]>
  readonly sellingPrices: () => Promise<SellingPrice[]>
  readonly resources: () => Promise<ResourceFacts[]>
  readonly packsHere: () => Promise<PackHere[]>
  readonly deviations: (only?: string) => Promise<Deviation[]>
  /** Photographs of one thing, or, by their SHA-256, where one is attached. */
  readonly photos: (of: string, id: string) => Promise<RecordedFact<'photo.attach'>[]>
  readonly photo: (sha256: string) => Promise<RecordedFact<'photo.attach'> | undefined>
  readonly drills: () => Promise<Drill[]>
  /** Spans in which instruments are not to be believed, with the batches they touched. */
  readonly doubts: (instrument?: string) => Promise<Touched[]>
  readonly massBalance: (batch: string) => Promise<MassBalance | undefined>
  readonly today: (on?: string) => Promise<Today>

  readonly verify: (options?: VerifyOptions) => Promise<VerifyReport>
  /** Drop the derived tables and fill them again from the entries. Returns how many entries were read. */
  readonly rebuildViews: (progress?: (done: number) => void) => Promise<number>
  /** Copy the record, files and all, into a new file while work goes on; then open the copy and hold it against this record. */
  readonly backup: (file: string, progress?: (done: number, total: number) => void) => Promise<BackupReport>
  /** Everything as plain files in a new folder: `entries.jsonl`, `files/`, `head.json`. */
  readonly exportTo: (folder: string, progress?: (done: number, total: number) => void) => Promise<ExportReport>
  /** Take an export into this record, which must be empty; the chain keeps its hashes. */
  readonly importFrom: (folder: string, progress?: (done: number, total: number) => void) => Promise<ExportReport>
  /** Finish what waits to be written, then close. */
  readonly close: () => Promise<void>
}
