import { z } from 'zod'
import { isoDate, list, massKg, massKgOrNone, pct, quantity, text } from '../schema.ts'

const product = z.strictObject({
  id: text(80),
  /** Finished weight from the mix, percent: what cooking or drying leaves. */
  yieldPct: quantity('% of the mix', { above: 0, max: 100 }),
  /** Days from starting a batch to its being ready: 0 for the same day. */
  leadDays: quantity('days', { min: 0, max: 365 }),
  needs: list(z.strictObject({ material: text(80), pctOfMix: pct() }), { max: 60 }),
  /** What a kg of mix takes of a resource, on each of `forDays` days from `fromDay` after the start. */
  uses: list(
    z.strictObject({
      resource: text(80),
      perMixKg: quantity("the resource's unit per kg of mix", { min: 0, max: 1e6 }),
      fromDay: quantity('days', { min: 0, max: 365 }).optional(),
      forDays: quantity('days', { min: 1, max: 365 }).optional(),
    }),
    { max: 20 },
  ),
  /** Smallest and largest batch, kg of mix. */
  batch: z
    .strictObject({ minKg: massKgOrNone().optional(), maxKg: massKg() })
    .refine((b) => (b.minKg ?? 0) <= b.maxKg, { message: 'has minKg above maxKg; allowed: minKg at most maxKg' })
    .optional(),
  /** Finished kg in stock at the start. */
  stockKg: massKgOrNone().optional(),
  /** Finished kg that batches already begun or planned will give, and the day they are ready. */
  coming: list(z.strictObject({ kg: massKgOrNone(), on: isoDate() }), { max: 300 }).optional(),
})

export const planInput = z
  .strictObject({
    from: isoDate(),
    days: quantity('days', { min: 1, max: 60 }),
    closed: list(isoDate(), { max: 60 }).optional(),
    products: list(product, { min: 1, max: 40 }),
    orders: list(z.strictObject({ id: text(80), product: text(80), kg: massKg(), due: isoDate() }), { max: 300 }),
    resources: list(
      z.strictObject({
        id: text(80),
        perDay: quantity('units a day', { min: 0, max: 1e9 }),
        unit: text(40).optional(),
        /** What batches already begun or planned take of it on a day. */
        taken: list(z.strictObject({ day: isoDate(), amount: quantity('units', { min: 0, max: 1e9 }) }), {
          max: 500,
        }).optional(),
      }),
      { max: 40 },
    ),
    /**
     * First day on which anything bought for the plan can be here, the first of the plan where it is not given. What the lots in hand do not
     * cover is bought and told, and nothing that needs a purchase is begun before.
     */
    buyFrom: isoDate().optional(),
    /** True where nothing is to be bought: then only what the lots hold is made. */
    noBuying: z.boolean({ error: 'is not a yes or no; allowed: true or false' }).optional(),
    /** Lots in hand or to come. */
    lots: list(
      z.strictObject({
        lot: text(80),
        material: text(80),
        kg: massKgOrNone(),
        useBy: isoDate().optional(),
        from: isoDate().optional(),
      }),
      { max: 300 },
    ),
  })
  .superRefine((input, ctx) => {
    const fault = (path: (string | number)[], message: string) => ctx.addIssue({ code: 'custom', path, message })
    const whole = (path: (string | number)[], n: number) =>
      Number.isInteger(n) || fault(path, `is ${n}; allowed: a whole number of days`)
    whole(['days'], input.days)
    const products = input.products.map((p) => p.id)
    const resources = input.resources.map((r) => r.id)
    input.products.forEach((p, i) => {
      if (products.indexOf(p.id) !== i)
        fault(['products', i, 'id'], `is ${JSON.stringify(p.id)} a second time; allowed: each product once`)
      whole(['products', i, 'leadDays'], p.leadDays)
      p.uses.forEach((u, k) => {
        if (!resources.includes(u.resource))
          fault(
            ['products', i, 'uses', k, 'resource'],
            `is ${JSON.stringify(u.resource)}; allowed: the id of a resource here`,
          )
        whole(['products', i, 'uses', k, 'fromDay'], u.fromDay ?? 0)
        whole(['products', i, 'uses', k, 'forDays'], u.forDays ?? 1)
      })
    })
    const lots = new Set<string>()
    input.lots.forEach((l, i) => {
      if (lots.has(l.lot))
        fault(['lots', i, 'lot'], `is ${JSON.stringify(l.lot)} a second time; allowed: each lot once`)
      lots.add(l.lot)
    })
    if (input.noBuying === true && input.buyFrom !== undefined)
      fault(['noBuying'], 'stands beside buyFrom; allowed: one of the two')
    input.orders.forEach((o, i) => {
      if (!products.includes(o.product))
        fault(['orders', i, 'product'], `is ${JSON.stringify(o.product)}; allowed: the id of a product here`)
      if (o.due < input.from)
        fault(['orders', i, 'due'], `is ${o.due}, before the plan starts; allowed: ${input.from} or later`)
    })
  })
export type PlanInput = z.infer<typeof planInput>

const batchSchema = z.strictObject({
  product: z.string(),
  start: z.string(),
  ready: z.string(),
  mixKg: z.number(),
  finishedKg: z.number(),
  lots: z.array(z.strictObject({ lot: z.string(), material: z.string(), kg: z.number() })),
})

export const planOutput = z.strictObject({
  status: z.enum(['optimal', 'unsolved']),
  because: z.string(),
  batches: z.array(batchSchema),
  orders: z.array(
    z.strictObject({
      id: z.string(),
      kg: z.number(),
      due: z.string(),
      onTimeKg: z.number(),
      lateKg: z.number(),
      shortKg: z.number(),
      done: z.string().optional(),
    }),
  ),
  /** `used` holds what was taken before the plan, too. */
  load: z.array(
    z.strictObject({
      day: z.string(),
      resource: z.string(),
      used: z.number(),
      taken: z.number(),
      perDay: z.number(),
      pct: z.number(),
    }),
  ),
  /** Materials the lots do not cover: how much the plan needs bought, and by when first. */
  toBuy: z.array(z.strictObject({ material: z.string(), kg: z.number(), by: z.string() })),
  /** What is wanting of each material to make what is short, where nothing may be bought. */
  lacking: z.array(z.strictObject({ material: z.string(), kg: z.number() })),
  /** Lots the plan leaves beyond their date, and how much. */
  expiring: z.array(z.strictObject({ lot: z.string(), material: z.string(), kg: z.number(), useBy: z.string() })),
  /** Resources with no room left on a day while something is late or short. */
  tight: z.array(z.string()),
})
export type Plan = z.infer<typeof planOutput>
