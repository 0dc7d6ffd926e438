import { z } from 'zod'
import { workingSchema, type WorkingStep } from '../finding.ts'
import { list, massG, massKg, minutes, money, pct, quantity, text } from '../schema.ts'
import { rankMoves } from './moves.ts'
import { outlay, sum, type Line } from './outlay.ts'

const share = () => quantity('%', { min: 0, max: 1000 })
/** A selling price; a margin on none has no meaning. */
const price = () => quantity('money per unit', { min: 1e-6, max: 1e9 })
const lossPct = () => quantity('% by mass', { min: 0, max: 99 })

export const batchCostInput = z
  .strictObject({
    /** Everything in the mix. `kg` is what goes into the mix; with `wastePct`, more is bought than goes in. */
    materials: list(
      z.strictObject({ name: text(120), kg: massKg(), costPerKg: money(), wastePct: lossPct().optional() }),
      { min: 1, max: 200 },
    ),
    labour: list(
      z.strictObject({
        task: text(120),
        minutes: minutes(),
        people: quantity('people', { above: 0, max: 1000 }).optional(),
        ratePerHour: money(),
      }),
      { max: 60 },
    ).optional(),
    /** Costs of the batch as a whole: casings, gas and current, cleaning, a laboratory test. */
    other: list(z.strictObject({ name: text(120), cost: money() }), { max: 60 }).optional(),
    /** Rent, insurance, paper: percent on top of materials, labour and other, and an amount a batch. */
    overhead: z.strictObject({ pctOfDirect: share().optional(), perBatch: money().optional() }).optional(),
    /** Mix that stays in grinder and stuffer, percent of the mix. */
    stuffingLossPct: lossPct().optional(),
    /** Losses one after the other, each percent of what came into it. */
    cookLossPct: lossPct().optional(),
    dryLossPct: lossPct().optional(),
    /** Ends, burst links, samples and give-away, percent of what came out of cook and dry. */
    trimLossPct: lossPct().optional(),
    /** Finished weight as weighed; the losses above are then not used for it. */
    finishedKg: massKg().optional(),
    /** Weight of a link as stuffed. */
    linkG: massG().optional(),
    pack: z.strictObject({ netG: massG(), costEach: money().optional(), priceEach: price().optional() }).optional(),
    pricePerKg: price().optional(),
    /** How far each cost is moved to see what it does, percent; 10 unless said. */
    movePct: pct().optional(),
  })
  .superRefine((input, ctx) => {
    const into = input.materials.reduce((s, m) => s + m.kg, 0)
    if (input.finishedKg !== undefined && input.finishedKg > into * (1 + 1e-9))
      ctx.addIssue({
        code: 'custom',
        path: ['finishedKg'],
        message: `is ${input.finishedKg}; allowed: at most the ${Number(into.toFixed(3))} kg of mix`,
      })
  })
export type BatchCostInput = z.infer<typeof batchCostInput>

const line = z.strictObject({
  name: z.string(),
  kind: z.enum(['material', 'labour', 'other', 'overhead', 'packaging']),
  cost: z.number(),
  sharePct: z.number(),
})
export const batchCostOutput = z.strictObject({
  total: z.number(),
  /** Without packaging. */
  totalUnpacked: z.number(),
  lines: z.array(line),
  rawKg: z.number(),
  stuffedKg: z.number(),
  finishedKg: z.number(),
  yieldPct: z.number(),
  /** Materials alone, per kg of mix. */
  materialsPerKgRaw: z.number(),
  perKgRaw: z.number(),
  perKgFinished: z.number(),
  links: z.number().optional(),
  perLink: z.number().optional(),
  packs: z.number().optional(),
  perPack: z.number().optional(),
  /** Left of the price of a finished kg after all costs but packaging, as money and as percent of the price; negative at a loss. */
  marginPerKg: z.number().optional(),
  marginPct: z.number().optional(),
  /** Left of the price of a pack after all costs, percent. */
  marginPerPackPct: z.number().optional(),
  /** What each line does to the cost of a finished kg, largest first. */
  moves: z.array(z.strictObject({ of: z.string(), change: z.string(), perKgFinished: z.number() })),
  working: workingSchema,
})
export type BatchCostOutput = z.infer<typeof batchCostOutput>

const whole = (x: number): number => Math.floor(x * (1 + 1e-12) + 1e-9)
const margin = (price: number, cost: number): number => (100 * (price - cost)) / price

type Counts = Pick<
  BatchCostOutput,
  'links' | 'perLink' | 'packs' | 'perPack' | 'marginPerKg' | 'marginPct' | 'marginPerPackPct'
>

function counts(input: BatchCostInput, b: ReturnType<typeof outlay>): Counts {
  const { linkG, pack, pricePerKg } = input
  const perPack = pack && (b.perKgFinished * pack.netG) / 1000 + (pack.costEach ?? 0)
  return {
    // A link keeps its share of the whole yield from stuffer to shelf.
    ...(linkG !== undefined && {
      links: whole((b.stuffedKg * 1000) / linkG),
      perLink: (b.perKgFinished * linkG * b.finishedKg) / b.stuffedKg / 1000,
    }),
    ...(pack && perPack !== undefined && { packs: whole((b.finishedKg * 1000) / pack.netG), perPack }),
    ...(pricePerKg !== undefined && {
      marginPerKg: pricePerKg - b.perKgFinished,
      marginPct: margin(pricePerKg, b.perKgFinished),
    }),
    ...(pack?.priceEach !== undefined &&
      pack.priceEach > 0 &&
      perPack !== undefined && { marginPerPackPct: margin(pack.priceEach, perPack) }),
  }
}

function workingOf(input: BatchCostInput, b: ReturnType<typeof outlay>): WorkingStep[] {
  const losses = `(1 − ${input.cookLossPct ?? 0}/100) × (1 − ${input.dryLossPct ?? 0}/100) × (1 − ${input.trimLossPct ?? 0}/100)`
  const of = (kind: Line['kind']) => sum(b.lines.filter((l) => l.kind === kind))
  return [
    { step: 'materials', expression: 'sum of kg / (1 − waste) × cost per kg', value: of('material'), unit: 'money' },
    { step: 'labour', expression: 'sum of minutes / 60 × people × rate', value: of('labour'), unit: 'money' },
    { step: 'other', expression: 'as given', value: of('other'), unit: 'money' },
    {
      step: 'overhead',
      expression: `${input.overhead?.pctOfDirect ?? 0} % of the above + ${input.overhead?.perBatch ?? 0}`,
      value: of('overhead'),
      unit: 'money',
    },
    {
      step: 'stuffed weight',
      expression: `${b.rawKg} kg × (1 − ${input.stuffingLossPct ?? 0}/100)`,
      value: b.stuffedKg,
      unit: 'kg',
    },
    {
      step: 'finished weight',
      expression: input.finishedKg !== undefined ? 'as weighed' : `${b.stuffedKg} kg × ${losses}`,
      value: b.finishedKg,
      unit: 'kg',
    },
    {
      step: 'cost of a finished kg',
      expression: `${b.totalUnpacked} / ${b.finishedKg} kg`,
      value: b.perKgFinished,
      unit: 'money/kg',
    },
  ]
}

/**
 * What a batch costs: materials, labour, other costs and overhead over what is left after stuffing, cook, dry and trim losses; per
 * kg raw and finished, per link and per pack; and what moves it most. Money is in whatever one unit the prices are in, unrounded.
 */
export function batchCost(input: BatchCostInput): BatchCostOutput {
  const b = outlay(input)
  const c = counts(input, b)
  const packaging = (c.packs ?? 0) * (input.pack?.costEach ?? 0)
  const total = b.totalUnpacked + packaging
  const lines: Line[] =
    packaging > 0 ? [...b.lines, { name: 'Packaging', kind: 'packaging', cost: packaging }] : b.lines
  const moves = rankMoves(input, b)
  return {
    total,
    totalUnpacked: b.totalUnpacked,
    lines: lines.map((l) => ({ ...l, sharePct: total > 0 ? (100 * l.cost) / total : 0 })),
    rawKg: b.rawKg,
    stuffedKg: b.stuffedKg,
    finishedKg: b.finishedKg,
    yieldPct: (100 * b.finishedKg) / b.rawKg,
    materialsPerKgRaw: sum(b.lines.filter((l) => l.kind === 'material')) / b.rawKg,
    perKgRaw: b.totalUnpacked / b.rawKg,
    perKgFinished: b.perKgFinished,
    ...c,
    moves,
    working: workingOf(input, b),
  }
}
