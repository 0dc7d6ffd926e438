import type { ColumnTypes } from './dialect/store.ts'

/** An entry: `text` is its canonical JSON without `hash`; the other columns repeat what queries need. */
export type EntryTable = {
  seq: number
  at: string
  author: string
  kind: string
  send_key: string | null
  prev: string
  hash: string
  text: string
}
export type FileTable = { sha256: string; bytes: number; data: Uint8Array; at: string }

/** Every fact in force: one row an entry that stands; `root` is the first entry of its line of corrections. */
export type FactTable = { seq: number; root: number; kind: string; subject: string; part: string | null }
export type AboutTable = { seq: number; type: string; id: string }
export type SupersededTable = { seq: number; by_seq: number; how: 'corrected' | 'withdrawn' }
export type LotTable = {
  lot: string
  seq: number
  root: number
  material: string
  supplier: string | null
  received: string
  use_by: string | null
  balance_mg: number
}
export type MovementTable = {
  seq: number
  root: number
  lot: string
  mg: number
  batch: string | null
  day: string | null
}
/** Where a lot came from, where it did not come in at the door. */
export type OriginTable = {
  lot: string
  seq: number
  root: number
  from_lot: string | null
  from_batch: string | null
  mg: number
}
export type BatchState = 'planned' | 'weighing' | 'made' | 'held' | 'released' | 'packed'
export type BatchTable = {
  batch: string
  seq: number
  root: number
  recipe: string
  version: number
  day: string
  lines: number
  weighed: number
  packs: number
  decision: 'release' | 'hold' | null
  state: BatchState
}
export type PackTable = {
  pack: string
  seq: number
  root: number
  batch: string
  count: number
  mg: number
  day: string
  shipped: number
}

export type Tables = {
  entry: EntryTable
  file: FileTable
  fact: FactTable
  about: AboutTable
  superseded: SupersededTable
  lot: LotTable
  movement: MovementTable
  origin: OriginTable
  batch: BatchTable
  pack: PackTable
  view_version: { version: string }
  migration: { id: string; at: string }
}

/** Raised with every change of the tables below or of how they are filled; a record with another number is rebuilt when opened. */
export const viewVersion = '3'

/** In an order in which they can be made; dropped in the reverse. */
export const viewTables = ['fact', 'about', 'superseded', 'lot', 'movement', 'origin', 'batch', 'pack'] as const

/** Tables derived from the entries. Masses are whole milligrams, so that sums do not depend on their order. */
export const viewDefinitions = ({ int, text, table, keyed }: ColumnTypes): readonly string[] => [
  `create table fact (seq ${int} primary key references entry (seq), root ${int} not null, kind ${text} not null,
    subject ${text} not null, part ${text}) ${table}`,
  `create index fact_by_subject on fact (subject, kind, root)`,
  `create index fact_by_kind on fact (kind, root)`,
  `create table about (seq ${int} not null references entry (seq), type ${text} not null, id ${text} not null,
    primary key (seq, type, id)) ${keyed}`,
  `create index about_by_id on about (id, type, seq)`,
  `create table superseded (seq ${int} primary key references entry (seq), by_seq ${int} not null references entry (seq),
    how ${text} not null check (how in ('corrected', 'withdrawn')), check (by_seq > seq)) ${table}`,
  `create table lot (lot ${text} primary key, seq ${int} not null references entry (seq), root ${int} not null,
    material ${text} not null, supplier ${text}, received ${text} not null, use_by ${text},
    balance_mg ${int} not null) ${table}`,
  `create index lot_by_root on lot (root)`,
  `create index lot_in_stock on lot (root) where balance_mg <> 0`,
  `create index lot_by_use_by on lot (use_by) where balance_mg <> 0`,
  `create table movement (seq ${int} not null references entry (seq), root ${int} not null,
    lot ${text} not null references lot (lot), mg ${int} not null check (mg between -100000000000 and 100000000000),
    batch ${text}, day ${text}, primary key (seq, lot)) ${table}`,
  `create index movement_by_lot on movement (lot, root)`,
  `create index movement_by_batch on movement (batch, root)`,
  `create table origin (lot ${text} primary key references lot (lot), seq ${int} not null references entry (seq),
    root ${int} not null, from_lot ${text}, from_batch ${text}, mg ${int} not null check (mg > 0),
    check ((from_lot is null) <> (from_batch is null))) ${table}`,
  `create index origin_from_lot on origin (from_lot) where from_lot is not null`,
  `create index origin_from_batch on origin (from_batch) where from_batch is not null`,
  `create table batch (batch ${text} primary key, seq ${int} not null references entry (seq), root ${int} not null,
    recipe ${text} not null, version ${int} not null check (version >= 1), day ${text} not null,
    lines ${int} not null, weighed ${int} not null default 0, packs ${int} not null default 0,
    decision ${text} check (decision in ('release', 'hold')), state ${text} not null default 'planned'
    check (state in ('planned', 'weighing', 'made', 'held', 'released', 'packed'))) ${table}`,
  `create index batch_by_root on batch (root)`,
  `create index batch_by_state on batch (state, root)`,
  `create index batch_by_recipe on batch (recipe, root)`,
  `create table pack (pack ${text} primary key, seq ${int} not null references entry (seq), root ${int} not null,
    batch ${text} not null references batch (batch), count ${int} not null check (count >= 1),
    mg ${int} not null check (mg > 0), day ${text} not null, shipped ${int} not null default 0) ${table}`,
  `create index pack_by_batch on pack (batch, root)`,
]

/** Indexes that filling the tables itself looks things up by; the others are made once the tables are full, which takes a third of the time. */
export const neededToFill: readonly string[] = ['fact_by_subject', 'origin_from_lot']
