import { z } from 'zod'
import { findingSchema } from '../../finding.ts'
import { recipeKinds } from '../../recipe/schema.ts'
import { isoDate, list, massKg, massKgOrNone, oneOf, pct, quantity, text } from '../../schema.ts'
import { allergens as allAllergens } from '../../materials/schema.ts'
import { stabilityFound } from '../dates.ts'
import { ingredientsOutput } from '../ingredients-schema.ts'
import { nutritionOutput } from '../nutrition-schema.ts'
import { qualifyingOutput } from '../qualifying.ts'
import { labelLanguages } from './languages.ts'
import { labelPack } from './pack.ts'

export const labelPlacesHeld = ['US', 'EU', 'GB', 'CA', 'AU-NZ'] as const

const item = z.strictObject({
  kg: massKgOrNone(),
  material: text(60),
  lot: text(60).optional(),
  supplier: text(120).optional(),
  /** Fat found in the lot, and its spread. */
  fatPct: pct().optional(),
  fatSdPct: pct().optional(),
  /** Collagen of the lot by specification or analysis. */
  collagenPct: pct().optional(),
})

const field = z.strictObject({
  field: text(40),
  text: z.string().max(4000),
  /** True for what differs from batch to batch by itself: lot, date, code. */
  varies: z.boolean().optional(),
})

export const labelBlock = z.strictObject({
  /** Stays the same while the matter is open. */
  id: z.string(),
  what: z.string(),
  settle: z.string(),
  /** `data`: only what is entered helps. `person`: whoever approves may answer for it in words. */
  by: z.enum(['data', 'person']),
})

export const labelInput = z.strictObject({
  place: oneOf(labelPlacesHeld),
  /** Code of the recipe, and of the batch where the label is of one. */
  recipe: text(60),
  batch: text(60).optional(),
  product: z.strictObject({
    name: text(120),
    kind: oneOf(recipeKinds),
    smoked: z.boolean(),
    readyToEat: z.boolean(),
    cased: z.boolean().optional(),
    /** What the recipe calls its casing. */
    casing: z.string().max(80).optional(),
    /** What only its maker can say of it, for the words that go with the name; one that is left out is not known. */
    defrosted: z.boolean().optional(),
    looksLikeCut: z.boolean().optional(),
    formedFromPieces: z.boolean().optional(),
    otherAnimalProtein: z.boolean().optional(),
    heatTreated: z.boolean().optional(),
    /** Measures of the composition rules, as `recipe.compute` gives them. */
    measures: z.record(z.string().max(60), z.number()).optional(),
  }),
  /** Everything that went into the bowl, from its lots where there are any. */
  items: list(item, { min: 1, max: 300 }),
  lossPct: quantity('% of the mix', { min: 0, max: 95 }).optional(),
  /** Day of packing. */
  packedOn: isoDate(),
  pack: labelPack,
  /** Weights of packs of this batch, as they were recorded at packing. */
  packWeights: z
    .strictObject({
      weightsG: list(quantity('g', { min: 0, max: 100_000 }), { min: 2, max: 20_000 }),
      tareG: quantity('g', { min: 0, max: 100_000 }).optional(),
      batchSize: z.int().min(1).max(10_000_000).optional(),
      scaleErrorG: quantity('g', { min: 0, max: 10_000 }).optional(),
      destructive: z.boolean().optional(),
    })
    .optional(),
  /** How a fermented or dried batch was judged to keep. */
  stability: oneOf(stabilityFound).optional(),
  /** What was weighed in, and what came out of it: packed, and taken back as rework. Only where something was packed. */
  made: z
    .strictObject({
      inKg: massKg(),
      packedKg: massKgOrNone(),
      reworkKg: massKgOrNone().optional(),
      /** Where `lossPct` comes from. */
      lossOf: oneOf(['recipe', 'pieces']).optional(),
      /** Mean loss of marked pieces from before the cook to after it, where `lossPct` is not theirs. */
      piecesLossPct: quantity('% of the mix', { min: 0, max: 95 }).optional(),
    })
    .optional(),
  /** Packings of the batch, with their whole weight as recorded. */
  packings: list(
    z.strictObject({
      pack: text(60),
      count: z.int().min(1).max(10_000_000),
      totalKg: massKgOrNone(),
      /** Date recorded with the packing. */
      useBy: isoDate().optional(),
    }),
    { max: 1000 },
  ).optional(),
  /** Allergens recorded with a lot of rework that went in. */
  reworkAllergens: list(z.strictObject({ lot: text(60), allergens: list(oneOf(allAllergens), { max: 15 }) }), {
    max: 100,
  }).optional(),
  /** What cannot be told of the batch and stands in the way of its label. */
  open: list(labelBlock, { max: 200 }).optional(),
  /** Limits that failed in the judgement of the recipe or the batch. */
  failed: list(z.strictObject({ title: text(200), because: text(2000) }), { max: 100 }).optional(),
  /** The label approved last: its fields and the allergens it declared. */
  approved: z.strictObject({ fields: list(field, { max: 60 }), allergens: list(text(40), { max: 15 }) }).optional(),
})

const span = z.strictObject({ start: z.int(), end: z.int() })

/** The texts of a label in one language. */
export const labelVersion = z.strictObject({
  language: z.enum(labelLanguages),
  name: z.string(),
  beside: z.array(z.string()),
  list: z.strictObject({
    heading: z.string(),
    text: z.string(),
    emphasised: z.array(span),
    textCapitals: z.string(),
  }),
  contains: z.string().optional(),
  mayContain: z.string().optional(),
  statements: z.array(z.string()),
  dateText: z.string().optional(),
  storage: z.array(z.string()),
  handling: z.array(z.string()),
  lotWord: z.string(),
  /** Title, basis, footnotes and row names (by key) of the nutrition table. */
  nutrition: z
    .strictObject({
      title: z.string(),
      per: z.string(),
      rows: z.record(z.string(), z.string()),
      footnotes: z.array(z.string()),
      /** Fixed words of its head and columns, by their English. */
      words: z.record(z.string(), z.string()),
    })
    .optional(),
  serving: z.array(z.strictObject({ label: z.string(), value: z.string() })),
  /** Texts there are no words for; they stand in English. */
  missing: z.array(z.strictObject({ what: z.string(), text: z.string() })),
  /** Where words that are not the maker's own come from. */
  from: z.array(
    z.strictObject({
      document: z.string(),
      section: z.string(),
      edition: z.string(),
      url: z.string().optional(),
      mark: z.string(),
    }),
  ),
})
export type LabelVersion = z.infer<typeof labelVersion>

export const labelOutput = z.strictObject({
  place: z.string(),
  name: z.string(),
  /** Words that stand beside the name. */
  beside: z.array(z.string()),
  /** Words that qualify a name in this place: due, not due, or not to be told from what is known. */
  qualifying: qualifyingOutput.shape.words,
  ingredients: ingredientsOutput,
  /** Allergens declared on it. */
  allergens: z.array(z.string()),
  mayContain: z.string().optional(),
  nutrition: nutritionOutput.optional(),
  /** The table by what this batch itself lost, row by row beside what is printed, for every loss the record tells. */
  nutritionOwn: z
    .array(
      z.strictObject({
        lossPct: z.number(),
        of: z.enum(['pieces', 'packs']),
        rows: z.array(
          z.strictObject({
            key: z.string(),
            label: z.string(),
            unit: z.string(),
            printed: z.string(),
            own: z.string().optional(),
            low: z.number().optional(),
            high: z.number().optional(),
            outside: z.boolean(),
          }),
        ),
      }),
    )
    .optional(),
  /** Lines above the figures of a panel drawn for the serving. */
  serving: z.array(z.strictObject({ label: z.string(), value: z.string() })),
  meatPct: z.number().optional(),
  /** Sample of recorded pack weights, and the least fill that keeps the law with the spread found. */
  weighed: z
    .strictObject({ n: z.int(), averageG: z.number(), sdG: z.number(), targetFillG: z.number().optional() })
    .optional(),
  netText: z.string().optional(),
  lot: z.string().optional(),
  dateText: z.string().optional(),
  storage: z.array(z.string()),
  /** Prescribed text, word for word, and the maker's own lines. */
  handling: z.array(z.string()),
  business: z.string().optional(),
  /** Mark of the establishment, or the room left for one. */
  mark: z
    .strictObject({
      kind: z.enum(['oval', 'frame', 'room']),
      lines: z.array(z.string()),
      roomMm: z.number().optional(),
    })
    .optional(),
  code: z
    .strictObject({ kind: z.enum(['gs1-128', 'gs1-datamatrix', 'ean-13']), text: z.string(), encoded: z.string() })
    .optional(),
  /** The label in every language of its pack, in their order. */
  versions: z.array(labelVersion),
  fields: z.array(z.strictObject({ field: z.string(), text: z.string(), varies: z.boolean() })),
  changes: z.array(z.strictObject({ field: z.string(), before: z.string().optional(), now: z.string().optional() })),
  blocks: z.array(labelBlock),
  notes: z.array(z.string()),
  findings: z.array(findingSchema),
})

export type LabelInput = z.infer<typeof labelInput>
export type LabelOutput = z.infer<typeof labelOutput>
export type LabelBlock = z.infer<typeof labelBlock>
