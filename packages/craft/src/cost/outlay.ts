import type { BatchCostInput } from './batch.ts'

/** One cost of a batch. */
export type Line = {
  readonly name: string
  readonly kind: 'material' | 'labour' | 'other' | 'overhead' | 'packaging'
  readonly cost: number
}

/** What is left of one kg after a loss in percent. */
const kept = (lossPct = 0): number => 1 - lossPct / 100

function directLines(input: BatchCostInput): Line[] {
  return [
    ...input.materials.map((m): Line => ({
      name: m.name,
      kind: 'material',
      cost: (m.kg / kept(m.wastePct)) * m.costPerKg,
    })),
    ...(input.labour ?? []).map((l): Line => ({
      name: l.task,
      kind: 'labour',
      cost: (l.minutes / 60) * (l.people ?? 1) * l.ratePerHour,
    })),
    ...(input.other ?? []).map((o): Line => ({ name: o.name, kind: 'other', cost: o.cost })),
  ]
}

export const sum = (lines: readonly Line[]): number => lines.reduce((s, l) => s + l.cost, 0)
/** Weights and costs without what is only shown: called again with one figure moved to see what it does. */
export function outlay(input: BatchCostInput) {
  const rawKg = input.materials.reduce((s, m) => s + m.kg, 0)
  const stuffedKg = rawKg * kept(input.stuffingLossPct)
  const afterStuffing = kept(input.cookLossPct) * kept(input.dryLossPct) * kept(input.trimLossPct)
  const finishedKg = input.finishedKg ?? stuffedKg * afterStuffing
  const direct = directLines(input)
  const overhead = (sum(direct) * (input.overhead?.pctOfDirect ?? 0)) / 100 + (input.overhead?.perBatch ?? 0)
  const lines: Line[] = overhead > 0 ? [...direct, { name: 'Overhead', kind: 'overhead', cost: overhead }] : direct
  const totalUnpacked = sum(lines)
  return { rawKg, stuffedKg, finishedKg, lines, totalUnpacked, perKgFinished: totalUnpacked / finishedKg }
}
