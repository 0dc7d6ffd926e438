import type { Store } from '../dialect/store.ts'
import { fromText } from '../entry.ts'
import type { Recipe } from '@forcemeat/craft/recipe/schema'
import { isSlow } from '@forcemeat/rulebook/batch/slow-kind'
import type { BatchState, BatchTable } from '../tables.ts'
import type { Doubt } from './doubt.ts'
import { within } from './entries.ts'
import { factsOf, ofKind, recorded, type RecordedFact } from './facts-of.ts'
import { inParts } from './in-parts.ts'
import { instrumentsOf, type InstrumentFacts } from './kitchen.ts'
import { lotsNamed, type LotFacts } from './lots.ts'
import { packsOf, type PackFacts } from './packs.ts'
import { sharedLogsOf, type SharedLog } from './shared-logs.ts'
import {
  ancestryOf,
  checksOf,
  doubtsInUse,
  lotsIn,
  placesOf,
  type Ancestry,
  type CheckedOn,
  type Placed,
} from './slow.ts'
import { waitsFor } from './waits-for.ts'

export type BatchFacts = RecordedFact<'batch.plan'> & {
  readonly state: BatchState
  readonly recipeName: string
  readonly recipeKind: Recipe['kind']
  readonly weighedLines: number
  readonly packCount: number
  /** The decision that stands, the latest where there are several. */
  readonly decision?: 'release' | 'hold'
}

export type BatchesQuery = {
  readonly limit?: number
  /** Code of the last batch of the page before. */
  readonly after?: string
  readonly state?: BatchState | readonly BatchState[]
  readonly recipe?: string
}

type Row = Pick<BatchTable, 'root' | 'recipe' | 'version' | 'state' | 'weighed' | 'packs' | 'decision'> & {
  text: string
  hash: string
}

const selection = (store: Store) =>
  store.read
    .selectFrom('batch as b')
    .innerJoin('entry as e', 'e.seq', 'b.seq')
    .select(['e.text', 'e.hash', 'b.root', 'b.recipe', 'b.version', 'b.state', 'b.weighed', 'b.packs', 'b.decision'])

/** The recipes of some batches, each version read once, by `recipe version`. */
async function recipesOf(store: Store, rows: readonly Row[]): Promise<Map<string, Recipe>> {
  const saved = await factsOf(
    store,
    'recipe.save',
    rows.map((r) => r.recipe),
  )
  return new Map(saved.map((s) => [`${s.recipe} ${s.version}`, s.body]))
}

async function asFacts(store: Store, rows: readonly Row[]): Promise<{ facts: BatchFacts; recipeBody: Recipe }[]> {
  const recipes = await recipesOf(store, rows)
  return rows.flatMap((row) => {
    const recipe = recipes.get(`${row.recipe} ${row.version}`)
    if (!recipe) return []
    const facts: BatchFacts = {
      ...recorded<'batch.plan'>(fromText(row.text, row.hash), row.root),
      state: row.state,
      recipeName: recipe.name,
      recipeKind: recipe.kind,
      weighedLines: row.weighed,
      packCount: row.packs,
      ...(row.decision === null ? {} : { decision: row.decision }),
    }
    return [{ facts, recipeBody: recipe }]
  })
}

const onlyFacts = async (store: Store, rows: readonly Row[]): Promise<BatchFacts[]> =>
  (await asFacts(store, rows)).map((b) => b.facts)

/** Batches, the one planned last first. */
export async function listBatches(store: Store, query: BatchesQuery = {}): Promise<BatchFacts[]> {
  const { after, state, recipe } = query
  const limit = within(query.limit, 200)
  const page = (of?: BatchState): Promise<Row[]> => {
    let rows = selection(store).orderBy('b.root', 'desc').limit(limit)
    if (of !== undefined) rows = rows.where('b.state', '=', of)
    if (recipe !== undefined) rows = rows.where('b.recipe', '=', recipe)
    if (after !== undefined)
      rows = rows.where('b.root', '<', store.read.selectFrom('batch').select('root').where('batch', '=', after))
    return rows.execute()
  }
  const states = state === undefined || typeof state === 'string' ? [state] : [...new Set(state)]
  // Each state is read in the order of its own index: asked for together, all there are of them would be sorted for the first page.
  const found = (await Promise.all(states.map(page))).flat()
  const rows = states.length > 1 ? found.sort((a, b) => b.root - a.root).slice(0, limit) : found
  return onlyFacts(store, rows)
}

/** Batches by code; those the record does not have are left out. */
export async function batchesNamed(store: Store, batches: readonly string[]): Promise<BatchFacts[]> {
  const asked = (part: readonly string[]) => selection(store).where('b.batch', 'in', part).orderBy('b.root').execute()
  return onlyFacts(store, await inParts(batches, asked, (row) => row.root))
}

/** Those of some batches that are soured or dried by what is in them and was recorded of them, whatever their kind is called. */
export async function slowAmong(store: Store, batches: readonly string[]): Promise<Set<string>> {
  const asked = (part: readonly string[]) => selection(store).where('b.batch', 'in', part).execute()
  const all = await asFacts(store, await inParts(batches, asked))
  const rest = all.map((b) => b.facts.batch)
  const logged = await inParts(rest, (part) =>
    store.read
      .selectFrom('fact as f')
      .select(['f.subject', 'f.part'])
      .where('f.subject', 'in', part)
      .where(ofKind('batch.curve'))
      .execute(),
  )
  // Told apart in the text, so that of hundreds of readings only those of a fermentation are read.
  const read = await inParts(rest, (part) =>
    store.read
      .selectFrom('fact as f')
      .innerJoin('entry as e', 'e.seq', 'f.seq')
      .select(['f.subject', 'e.text', 'e.hash'])
      .where('f.subject', 'in', part)
      .where(ofKind('batch.measure'))
      .where('e.text', 'like', '%"step":"ferment"%')
      .execute(),
  )
  const measures = Map.groupBy(read, (r) => r.subject)
  const curves = Map.groupBy(logged, (r) => r.subject)
  const slow = all.filter(({ facts: { batch, lines }, recipeBody }) =>
    isSlow({
      recipeBody,
      lines,
      curves: (curves.get(batch) ?? []).map((c) => ({ purpose: c.part as RecordedFact<'batch.curve'>['purpose'] })),
      measures: (measures.get(batch) ?? []).flatMap(({ text, hash }) => {
        const entry = fromText(text, hash)
        return entry.kind === 'batch.measure' ? [entry.body] : []
      }),
    }),
  )
  return new Set(slow.map((s) => s.facts.batch))
}

/** Everything recorded of one batch that stands. */
export type BatchRecord = BatchFacts & {
  readonly recipeBody: Recipe
  readonly weighings: readonly RecordedFact<'batch.weigh'>[]
  readonly measures: readonly RecordedFact<'batch.measure'>[]
  readonly curves: readonly RecordedFact<'batch.curve'>[]
  /** Logs of its cook that stand on other batches too. */
  readonly sharedLogs?: readonly SharedLog[]
  readonly decisions: readonly RecordedFact<'batch.decide'>[]
  readonly packs: readonly PackFacts[]
  /** The lots planned or weighed. */
  readonly lots: readonly LotFacts[]
  /** The instruments used or planned, with their last check on or before the batch's date, and any doubt cast on them later. */
  readonly instruments: readonly (InstrumentFacts & { readonly inDoubt?: Doubt })[]
  /** Of a fermented or dried batch: the checks, by method, of the instruments it rests on, oldest first. */
  readonly checks?: readonly CheckedOn[]
  /** The rooms it hung in, in order. */
  readonly placements?: readonly Placed[]
  /** What made the meat safe of the lots used and of those behind them; where the product is not cooked. */
  readonly treatments?: readonly RecordedFact<'lot.treat'>[]
  /** The lots and batches the lots used came out of. */
  readonly ancestry?: Ancestry
  /** What has still to happen before the batch can go out, in order. */
  readonly waitsFor: readonly string[]
}

const named = (codes: readonly (string | undefined)[]): string[] => [...new Set(codes)].filter((c) => c !== undefined)

/** The plan, the weighings and the scales of a batch: what a lot of rework is followed back by. */
async function madeOf(store: Store, batch: string) {
  const row = await selection(store).where('b.batch', '=', batch).executeTakeFirst()
  const [found] = row ? await asFacts(store, [row]) : []
  if (!found) return undefined
  const { facts, recipeBody } = found
  const weighings = await factsOf(store, 'batch.weigh', batch)
  const scales = named([...facts.lines.map((l) => l.scale), ...weighings.map((w) => w.instrument)])
  const standing = scales.length === 0 ? [] : await instrumentsOf(store, facts.on, scales)
  const doubts = await doubtsInUse(store, { ...facts, weighings, measures: [], curves: [] })
  return { ...facts, recipeBody, weighings, instruments: standing.map((i) => doubted(i, doubts)) }
}

/** An instrument with the doubt cast on it later. */
function doubted(i: InstrumentFacts, doubts: ReadonlyMap<string, Doubt>): BatchRecord['instruments'][number] {
  const inDoubt = doubts.get(i.instrument)
  return inDoubt ? { ...i, inDoubt } : i
}

type Started = Omit<BatchRecord, 'instruments' | 'waitsFor' | 'checks' | 'placements' | 'treatments' | 'ancestry'>

/**
 * What stands behind the lots of a batch, whatever its kind: rework brings the allergens of what it is made of. And what a product eaten
 * without a full cook is judged by beside: how its meat was treated, and where and by what it was slow.
 */
async function slowOf(
  store: Store,
  batch: Started,
): Promise<Pick<BatchRecord, 'checks' | 'placements' | 'treatments' | 'ancestry'>> {
  const inside = new Set(lotsIn(batch))
  const ancestry = await ancestryOf(
    store,
    batch.lots.filter((l) => inside.has(l.lot)),
    (code) => madeOf(store, code),
  )
  const behind = ancestry.lots.length + ancestry.batches.length > 0 ? { ancestry } : {}
  const slow = isSlow(batch)
  if (batch.recipeKind === 'cooked' && !slow) return behind
  const treatments = await factsOf(store, 'lot.treat', [...inside, ...ancestry.lots.map((l) => l.lot)])
  const found = { ...(treatments.length > 0 ? { treatments } : {}), ...behind }
  if (batch.recipeKind === 'fresh' && !slow) return found
  const [checks, placements] = await Promise.all([
    checksOf(store, { ...batch, ...found }),
    placesOf(store, batch.batch),
  ])
  return { ...found, ...(placements.length > 0 ? { placements } : {}), checks }
}

export async function batchOf(store: Store, batch: string): Promise<BatchRecord | undefined> {
  const row = await selection(store).where('b.batch', '=', batch).executeTakeFirst()
  if (!row) return undefined
  const [found] = await asFacts(store, [row])
  if (!found) return undefined
  const { facts, recipeBody } = found
  const [weighings, measures, curves, decisions, packs] = await Promise.all([
    factsOf(store, 'batch.weigh', batch),
    factsOf(store, 'batch.measure', batch),
    factsOf(store, 'batch.curve', batch),
    factsOf(store, 'batch.decide', batch),
    packsOf(store, [batch]),
  ])
  const lots = await lotsNamed(store, named([...facts.lines.map((l) => l.lot), ...weighings.map((w) => w.lot)]))
  const started = { ...facts, recipeBody, weighings, measures, curves, decisions, packs, lots }
  const slow = await slowOf(store, started)
  const used = named([
    ...facts.lines.map((l) => l.scale),
    ...weighings.map((w) => w.instrument),
    ...measures.map((m) => m.instrument),
    ...curves.flatMap((c) => c.channels.map((ch) => ch.instrument)),
    ...(slow.treatments ?? []).map((t) => t.instrument),
  ])
  const standing = used.length === 0 ? [] : await instrumentsOf(store, facts.on, used)
  const doubts = await doubtsInUse(store, { ...started, ...slow })
  const instruments = standing.map((i) => doubted(i, doubts))
  const shared = await sharedLogsOf(store, started)
  const whole = { ...started, ...slow, instruments, ...(shared.length > 0 ? { sharedLogs: shared } : {}) }
  return { ...whole, waitsFor: waitsFor(whole) }
}
