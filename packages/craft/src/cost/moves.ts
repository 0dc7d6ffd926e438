import type { BatchCostInput } from './batch.ts'
import { outlay } from './outlay.ts'

/** What one change does to the cost of a finished kg. */
export type Move = { of: string; change: string; perKgFinished: number }

const DEFAULT_MOVE_PCT = 10
const losses = ['stuffingLossPct', 'cookLossPct', 'dryLossPct', 'trimLossPct'] as const
const named = {
  stuffingLossPct: 'Stuffing loss',
  cookLossPct: 'Cook loss',
  dryLossPct: 'Dry loss',
  trimLossPct: 'Ends and give-away',
} as const

/** Every cost dearer by `movePct` and every loss larger by a point, in falling order of what it adds to a finished kg. */
export function rankMoves(input: BatchCostInput, base: ReturnType<typeof outlay>): Move[] {
  const pct = input.movePct ?? DEFAULT_MOVE_PCT
  const factor = 1 + pct / 100
  const change = `${pct} % dearer`
  const by = (moved: BatchCostInput) => outlay(moved).perKgFinished - base.perKgFinished
  const costs: Move[] = [
    ...input.materials.map((m, i) => ({
      of: m.name,
      change,
      perKgFinished: by({ ...input, materials: input.materials.with(i, { ...m, costPerKg: m.costPerKg * factor }) }),
    })),
    ...(input.labour ?? []).map((l, i) => ({
      of: l.task,
      change,
      perKgFinished: by({ ...input, labour: input.labour!.with(i, { ...l, ratePerHour: l.ratePerHour * factor }) }),
    })),
    ...(input.other ?? []).map((o, i) => ({
      of: o.name,
      change,
      perKgFinished: by({ ...input, other: input.other!.with(i, { ...o, cost: o.cost * factor }) }),
    })),
  ]
  if (input.finishedKg !== undefined)
    return order([
      ...costs,
      {
        of: 'Finished weight',
        change: '1 % less',
        perKgFinished: by({ ...input, finishedKg: input.finishedKg * 0.99 }),
      },
    ])
  // A loss at its ceiling has no point more to give.
  const points = losses
    .filter((k) => input[k] !== undefined && input[k] <= 98)
    .map((k) => ({ of: named[k], change: '1 point more', perKgFinished: by({ ...input, [k]: input[k]! + 1 }) }))
  return order([...costs, ...points])
}

const order = (moves: readonly Move[]): Move[] => moves.toSorted((a, b) => b.perKgFinished - a.perKgFinished)
