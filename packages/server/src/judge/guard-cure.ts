import type { Fault } from '@forcemeat/craft/calculation'
import { findMaterial } from '@forcemeat/craft/materials/materials'
import { cureBand } from '@forcemeat/craft/recipe/cure-band'
import { facts, type Draft, type Ledger } from '@forcemeat/ledger'
import { Refusal } from '../http/refusal.ts'

type Weighing = Extract<Draft, { kind: 'batch.weigh' }>

const weighingIn = (draft: unknown): Weighing | undefined => {
  const { kind, body } = (draft ?? {}) as { kind?: unknown; body?: unknown }
  if (kind !== 'batch.weigh') return undefined
  const read = facts['batch.weigh'].safeParse(body)
  return read.success ? ({ ...(draft as object), body: read.data } as Weighing) : undefined
}

const grams = (kg: number): string => `${Number((kg * 1000).toPrecision(5))} g`

/**
 * A cure that brings more nitrite into its batch than the recipe means to is asked about before it is in the mix: it is recorded with a note,
 * or as a correction, which says why. Less than that may be the first of several weighings, and is left to the judgement.
 * @throws Refusal 400 with a fault for each
 */
export async function guardCure(ledger: Ledger, drafts: readonly unknown[]): Promise<void> {
  const faults: Fault[] = []
  const inCall = new Map<string, number>()
  for (const [i, given] of drafts.entries()) {
    const draft = weighingIn(given)
    if (!draft || draft.corrects !== undefined) continue
    const { batch, line, kg, note } = draft.body
    const record = await ledger.batch(batch)
    const planned = record?.lines.find((l) => l.line === line)
    if (!record || !planned) continue
    const materials = record.lines.map((l) => findMaterial(l.material))
    const band = cureBand(record.recipeBody, findMaterial(planned.material), materials, record.meatKg)
    if (!band) continue
    const key = `${batch} ${line}`
    const before = record.weighings.filter((w) => w.line === line).reduce((s, w) => s + w.kg, inCall.get(key) ?? 0)
    inCall.set(key, (inCall.get(key) ?? 0) + kg)
    if (note !== undefined || before + kg <= band.highKg * (1 + 1e-9)) continue
    const path = drafts.length === 1 ? 'body.kg' : `[${i}].body.kg`
    const most = Math.max(0, band.highKg - before)
    faults.push({
      path,
      message: `${before > 0 ? `brings the cure of ${batch} to ${grams(before + kg)}` : `is ${grams(kg)} of cure`}, and the nitrite band of its recipe ends at ${grams(band.highKg)}: do not put it in the mix; allowed: at most ${grams(most)}${before > 0 ? ' more' : ''}, or a note that says why`,
    })
  }
  if (faults.length > 0) throw new Refusal(400, faults)
}
