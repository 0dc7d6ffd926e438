import { canonical, sha256, type BatchFacts, type Entry, type Ledger } from '@forcemeat/ledger'
import { doubtIn, type BatchDoubt } from './doubt.ts'
import { judged } from './judged.ts'

/** Days back from today for which batches that are out are looked at again. */
const lookedAtDays = 60
/** The same for what ferments and dries: it is out long after it was made. */
const lookedAtSlowDays = 730
/** Batches read from the record at once. */
const mostAtOnce = 1000

export type BatchInDoubt = Pick<BatchFacts, 'batch' | 'recipeName' | 'on' | 'state'> & BatchDoubt

type Held = {
  readonly facts: string
  readonly doubt: BatchDoubt | undefined
  readonly checked: boolean
  /** Batches whose rework is in it: what is found wrong with them is wrong with it. */
  readonly from: readonly string[]
}

/** Facts that change no judgement of a batch already there, as long as they correct nothing. */
const harmless: ReadonlySet<string> = new Set([
  'kitchen.set',
  'person.add',
  'instrument.add',
  'business.add',
  'recipe.save',
  'lot.receive',
  'lot.adjust',
  'lot.split',
  'lot.rework',
  'lot.move',
  'room.add',
  'order.take',
  'order.close',
  'price.set',
  'price.sell',
  'plan.resource',
  'recall.drill',
  'hazard.sign',
  'deviation.open',
  'deviation.act',
  'deviation.close',
])
/** Facts of one batch alone. */
const ofOneBatch: ReadonlySet<string> = new Set([
  'batch.plan',
  'batch.weigh',
  'batch.measure',
  'batch.curve',
  'batch.place',
  'batch.decide',
  'batch.pack',
])

/**
 * Looks again at batches that are out. A batch is read again when an entry may touch it, and judged again when its facts are others than
 * those judged before, so that a list of hundreds costs little.
 */
export function watchDoubts(ledger: Ledger) {
  const held = new Map<string, Held>()
  /** Whether older batches sour or dry, as far as looked up. */
  const slow = new Map<string, boolean>()
  const touch = (batch: string): void => {
    slow.delete(batch)
    const known = held.get(batch)
    if (known) held.set(batch, { ...known, checked: false })
    for (const [other, h] of held) if (h.from.includes(batch)) held.set(other, { ...h, checked: false })
  }
  let told = 0
  const heard = (entries: readonly Entry[]): void => {
    told += 1
    for (const { kind, body, corrects } of entries) {
      if (kind === 'pack.ship' || (corrects === undefined && harmless.has(kind))) continue
      if (ofOneBatch.has(kind)) touch((body as { batch: string }).batch)
      else {
        slow.clear()
        for (const batch of held.keys()) touch(batch)
      }
    }
  }
  const stop = ledger.onAppend(heard)

  const doubtOf = async (batch: string): Promise<BatchDoubt | undefined> => {
    const before = held.get(batch)
    if (before?.checked) return before.doubt
    const heardBefore = told
    const record = await ledger.batch(batch)
    if (!record) return undefined
    const { packs: _packs, ...judgedOn } = record
    const facts = sha256(canonical(judgedOn))
    const doubt = before?.facts === facts ? before.doubt : doubtIn(record, await judged(ledger, record))
    // What was recorded while this was read may not be in it.
    const from = (record.ancestry?.batches ?? []).map((b) => b.batch)
    held.set(batch, { facts, doubt, checked: told === heardBefore, from })
    return doubt
  }

  /** Those batches that sour or dry: they are out long after they were made. */
  const slowAmong = async (batches: readonly string[]): Promise<(batch: string) => boolean> => {
    const open = batches.filter((b) => !slow.has(b))
    const heardBefore = told
    const found = open.length === 0 ? new Set() : await ledger.slowAmong(open)
    // What was recorded while this was read may not be in it.
    if (told === heardBefore) for (const b of open) slow.set(b, found.has(b))
    return (batch) => slow.get(batch) ?? found.has(batch)
  }

  /** Batches made, released or packed since a day, the one planned last first. */
  const outSince = async (from: string): Promise<BatchFacts[]> => {
    const found: BatchFacts[] = []
    for (;;) {
      const after = found.at(-1)?.batch
      const page = await ledger.batches({
        state: ['made', 'released', 'packed'],
        limit: mostAtOnce,
        ...(after === undefined ? {} : { after }),
      })
      found.push(...page)
      if (page.length < mostAtOnce || page.every((r) => r.on < from)) return found.filter((r) => r.on >= from)
    }
  }

  return {
    stop,
    /** The doubt one batch stands in now. */
    doubtOf,
    /** Batches made, released or packed in the last 60 days, or two years where they sour or dry by what is in them or recorded of them, that stand in doubt; newest first. */
    list: async (on: string): Promise<BatchInDoubt[]> => {
      const daysBack = (days: number): string => new Date(Date.parse(on) - days * 86_400_000).toISOString().slice(0, 10)
      const from = daysBack(lookedAtDays)
      const slowFrom = daysBack(lookedAtSlowDays)
      const rows = await outSince(slowFrom)
      const isSlow = await slowAmong(rows.filter((r) => r.on < from).map((r) => r.batch))
      const found: BatchInDoubt[] = []
      for (const { batch, recipeName, on: madeOn, state } of rows.filter((r) => r.on >= from || isSlow(r.batch))) {
        const doubt = await doubtOf(batch)
        if (doubt) found.push({ batch, recipeName, on: madeOn, state, ...doubt })
      }
      return found
    },
  }
}

export type Doubts = ReturnType<typeof watchDoubts>
