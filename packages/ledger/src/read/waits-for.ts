import { dries, souredUnplanned, sours } from '@forcemeat/rulebook/batch/slow-kind'
import type { BatchRecord } from './batches.ts'

/** What has still to be recorded before a batch can go out, in the order of the work. Says nothing of whether it is safe. */
export function waitsFor(batch: Omit<BatchRecord, 'waitsFor'>): string[] {
  if (batch.state === 'packed') return []
  const waits: string[] = []
  const weighed = new Set(batch.weighings.map((w) => w.line))
  const missing = batch.lines.filter((l) => !weighed.has(l.line))
  if (missing.length === batch.lines.length) waits.push('weighing')
  else if (missing.length > 0) waits.push(`weighing of ${missing.map((l) => l.material).join(', ')}`)
  const curves = new Set(batch.curves.map((c) => c.purpose))
  const kind = batch.recipeKind
  const heated = kind === 'cooked' || batch.recipeBody.cook !== undefined
  if (heated && !curves.has('cook') && !curves.has('cook-and-chill')) waits.push('cook curve')
  if (heated && !curves.has('chill') && !curves.has('cook-and-chill')) waits.push('chill curve')
  // A semi-dry stick is soured and dried whatever its kind is called.
  const [souring, drying] = [sours(batch), dries(batch)]
  // One that soured by itself while it dried is judged by the log of its drying.
  const logged = curves.has('ferment') || (curves.has('dry') && souredUnplanned(batch))
  if (souring && !logged) waits.push('fermentation curve')
  if (souring && !batch.measures.some((m) => m.what === 'ph')) waits.push('pH after fermentation')
  // Dried raw, it is asked how cold it hung.
  if (drying && !souring && !heated && !curves.has('dry')) waits.push('drying curve')
  const pieces = new Set(batch.measures.flatMap((m) => (m.what === 'weight' && m.piece ? [m.piece] : [])))
  if (drying && pieces.size === 0) waits.push('marked pieces weighed as hung')
  // A loss is no hurdle by itself: only a measured water activity, or an acid product's pH, ends a drying.
  if (drying && !batch.measures.some((m) => m.what === 'aw')) waits.push('water activity after drying')
  if (batch.decision === 'hold') waits.push('the end of its hold')
  else if (batch.decision === undefined) waits.push('release or hold')
  if (batch.packs.length === 0) waits.push('packing')
  return waits
}
