import { z } from 'zod'
import { lengthMm, line, list, massG, minutes, oneOf, pct, ppm, quantity, tempC, text } from '../schema.ts'

export const recipeKinds = ['fresh', 'cooked', 'fermented', 'dried'] as const

/** The places a recipe can be judged for. */
export const jurisdictions = ['US', 'US-home', 'EU', 'GB', 'CA', 'AU-NZ', 'Codex'] as const
export type Jurisdiction = (typeof jurisdictions)[number]

const share = z.strictObject({
  /** Id of a material of the table, or of the kitchen's own. */
  material: text(60),
  /** Percent of the meat block, by mass. */
  pct: quantity('% of the meat block', { min: 0, max: 1000 }),
  note: text(200).optional(),
})

const limit = z
  .strictObject({
    of: text(60),
    minPct: pct().optional(),
    maxPct: pct().optional(),
  })
  .refine((l) => l.minPct === undefined || l.maxPct === undefined || l.minPct <= l.maxPct, {
    message: 'has minPct above maxPct; allowed: minPct at most maxPct',
  })

/**
 * A recipe: every part as percent of the meat block (the raw meat and fat), the way the trade writes one. Meat parts add up to
 * 100; additions (water, salt, cure, spice) come on top.
 */
export const recipeSchema = z
  .strictObject({
    name: line(120),
    kind: oneOf(recipeKinds),
    smoked: z.boolean(),
    /** Eaten as sold, with no cooking by the eater. */
    readyToEat: z.boolean(),
    /** Ids of composition standards of the rulebook the product is sold under, e.g. "us.319.180.a". */
    standards: list(text(80), { max: 10 }).optional(),
    meat: list(share.extend({ minPct: pct().optional(), maxPct: pct().optional() }), { min: 1, max: 60 }),
    additions: list(share, { max: 120 }),
    /** Limits on the whole mix for blending from lots: fat, protein, water, collagen, addedWater, salt, a species or a material. */
    limits: list(limit, { max: 60 }).optional(),
    /** The band of ingoing nitrite the maker means to hit, as sodium nitrite on the meat block. */
    nitriteTarget: z.strictObject({ lowPpm: ppm(), highPpm: ppm() }).optional(),
    route: oneOf(['comminuted', 'pumped', 'immersed', 'dry-rubbed']).optional(),
    casing: z
      .strictObject({
        casing: text(80).optional(),
        calibreMm: lengthMm(),
        kgPerM: quantity('kg/m', { above: 0, max: 100 }).optional(),
        linkG: massG().optional(),
      })
      .optional(),
    cook: z
      .strictObject({
        targetCoreC: tempC(),
        holdMinutes: minutes().optional(),
        lossPct: pct().optional(),
        stages: list(
          z.strictObject({
            medium: oneOf(['air', 'water', 'steam', 'ice-water']),
            tempC: tempC(),
            rhPct: quantity('% relative humidity', { min: 0, max: 100 }).optional(),
            minutes: minutes().optional(),
            untilCoreC: tempC().optional(),
          }),
          { max: 20 },
        ).optional(),
      })
      .optional(),
    ferment: z
      .strictObject({
        /** pH at which the fermentation is ended; 5.3 where the published degree-hours count to it. */
        targetPh: quantity('pH', { min: 3.8, max: 6.5 }),
        startPh: quantity('pH', { min: 5, max: 7 }).optional(),
        /** What sours it, by its composition: "starter of lactic acid bacteria, 25 g per 100 kg". */
        culture: text(200).optional(),
        stages: list(
          z.strictObject({
            hours: quantity('hours', { above: 0, max: 2000 }),
            tempC: quantity('°C', { min: 0, max: 50 }),
            rhPct: quantity('%', { min: 10, max: 100 }).optional(),
          }),
          { max: 20 },
        ).optional(),
      })
      .optional(),
    dry: z
      .strictObject({
        lossPct: pct(),
        days: quantity('days', { min: 0, max: 1000 }).optional(),
        /** What the dried product must reach beside its loss. */
        targetAw: quantity('', { min: 0.6, max: 0.99 }).optional(),
        targetMoistureToProtein: quantity('kg water per kg protein', { min: 0.3, max: 6 }).optional(),
        stages: list(
          z.strictObject({
            days: quantity('days', { above: 0, max: 730 }),
            tempC: quantity('°C', { min: 0, max: 45 }),
            rhPct: quantity('%', { min: 10, max: 100 }),
            airSpeedMPerS: quantity('m/s', { min: 0, max: 10 }).optional(),
          }),
          { max: 20 },
        ).optional(),
      })
      .optional(),
    steps: list(text(400), { max: 40 }).optional(),
    note: text(2000).optional(),
  })
  .superRefine((r, ctx) => {
    const sum = r.meat.reduce((s, m) => s + m.pct, 0)
    if (Math.abs(sum - 100) > 0.05)
      ctx.addIssue({
        code: 'custom',
        path: ['meat'],
        message: `adds up to ${Number(sum.toFixed(3))} %; allowed: meat parts that add up to 100 % of the meat block`,
      })
  })
export type Recipe = z.infer<typeof recipeSchema>
