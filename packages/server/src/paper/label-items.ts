import { block } from '@forcemeat/craft/declare/label/blocks'
import type { LabelBlock, LabelInput } from '@forcemeat/craft/declare/label/schema'
import { weighedLines } from '@forcemeat/rulebook/batch/weights'
import type { BatchRecord, Ledger } from '@forcemeat/ledger'

type Item = LabelInput['items'][number]
type Lot = BatchRecord['lots'][number]
type Line = ReturnType<typeof weighedLines>[number]

/** Everything that went into a batch, rework taken apart into what its own batch was made of. */
export type MadeOf = {
  readonly items: readonly Item[]
  readonly open: readonly LabelBlock[]
  readonly reworkAllergens: NonNullable<LabelInput['reworkAllergens']>
}

/** Rework of rework of rework: further back than this nobody follows, and the label says so. */
const MOST_STEPS = 12
/** Under it a part of a part is no longer listed by itself but stays with its material, kg. */
const LEAST_KG = 1e-9

const unknown = (lot: string, why: string): LabelBlock =>
  block(
    `rework:${lot}`,
    `What the rework ${lot} is made of is not known: ${why}`,
    'record what was weighed into the batch it came out of, line by line, or leave the rework out',
  )

/** The rework behind a lot, through every part split off it. */
async function reworkBehind(
  ledger: Ledger,
  lot: Lot,
): Promise<{ batch: string; allergens: readonly string[] } | undefined> {
  const seen = new Set<string>()
  let at: Lot | undefined = lot
  while (at?.origin) {
    if ('batch' in at.origin) return { batch: at.origin.batch, allergens: at.origin.allergens ?? [] }
    if (seen.has(at.lot)) return undefined
    seen.add(at.lot)
    at = await ledger.lot(at.origin.lot)
  }
  return undefined
}

const itemOf = (material: string, kg: number, code: string | undefined, lot: Lot | undefined): Item => ({
  kg,
  // What the lot is counts, not what the plan asked for.
  material: lot?.material ?? material,
  ...(code === undefined ? {} : { lot: code }),
  ...(lot?.supplier === undefined ? {} : { supplier: lot.supplier }),
  ...(lot?.fatPct === undefined ? {} : { fatPct: lot.fatPct }),
  ...(lot?.fatSdPct === undefined ? {} : { fatSdPct: lot.fatSdPct }),
  ...(lot?.collagenPct === undefined ? {} : { collagenPct: lot.collagenPct }),
})

/** Same material out of the same lot stands once: rework comes back to lots that went in by themselves too. */
function together(items: readonly Item[]): Item[] {
  const found = new Map<string, Item>()
  for (const item of items) {
    const key = JSON.stringify([item.material, item.lot, item.supplier])
    const before = found.get(key)
    found.set(key, before ? { ...before, kg: before.kg + item.kg } : item)
  }
  return [...found.values()]
}

/**
 * What a batch was made of, for its label. A lot of rework stands as the lines of the batch it came out of, in their proportion as weighed
 * there, followed back through splits and further rework. Where those lines are not known the label is stopped; allergens typed with the
 * rework only add to what the lines say.
 */
export async function madeOf(ledger: Ledger, record: BatchRecord): Promise<MadeOf> {
  const open = new Map<string, LabelBlock>()
  const typed = new Map<string, readonly string[]>()
  const batches = new Map<string, BatchRecord | undefined>([[record.batch, record]])
  const read = async (batch: string): Promise<BatchRecord | undefined> => {
    if (!batches.has(batch)) batches.set(batch, await ledger.batch(batch))
    return batches.get(batch)
  }
  const linesOf = async (of: BatchRecord, share: number, path: readonly string[]): Promise<Item[]> => {
    const lots = new Map(of.lots.map((l) => [l.lot, l]))
    const items: Item[] = []
    for (const { line, parts, kg } of weighedLines(of)) {
      const each: Line['parts'] =
        parts.length > 0 ? parts : [{ kg, ...(line.lot === undefined ? {} : { lot: line.lot }) }]
      for (const part of each) {
        const lot = part.lot === undefined ? undefined : lots.get(part.lot)
        items.push(...(await partOf(itemOf(line.material, part.kg * share, part.lot, lot), lot, path)))
      }
    }
    return items
  }
  const partOf = async (item: Item, lot: Lot | undefined, path: readonly string[]): Promise<Item[]> => {
    const rework = lot && (await reworkBehind(ledger, lot))
    if (!lot || !rework) return [item]
    if (rework.allergens.length > 0) typed.set(lot.lot, rework.allergens)
    const stop = (why: string): Item[] => {
      open.set(lot.lot, unknown(lot.lot, why))
      return [item]
    }
    if (path.includes(rework.batch)) return stop(`it comes out of ${rework.batch}, which it went into`)
    if (path.length >= MOST_STEPS) return stop(`it goes back over more than ${MOST_STEPS} batches`)
    const origin = await read(rework.batch)
    if (!origin) return stop(`batch ${rework.batch} is not in the record`)
    const lines = weighedLines(origin)
    const totalKg = lines.reduce((s, l) => s + l.kg, 0)
    if (totalKg <= 0) return stop(`batch ${rework.batch} weighs nothing`)
    const waiting = lines.filter((l) => l.parts.length === 0 && l.line.targetKg > 0)
    if (waiting.length > 0)
      open.set(
        lot.lot,
        unknown(
          lot.lot,
          `of batch ${rework.batch} were not weighed: ${waiting.map((l) => l.line.material).join(', ')}; they stand as planned`,
        ),
      )
    return item.kg <= LEAST_KG ? [] : linesOf(origin, item.kg / totalKg, [...path, rework.batch])
  }
  const items = await linesOf(record, 1, [record.batch])
  return {
    items: together(items),
    open: [...open.values()],
    reworkAllergens: [...typed].map(([lot, allergens]) => ({
      lot,
      allergens: [...allergens] as MadeOf['reworkAllergens'][number]['allergens'],
    })),
  }
}
