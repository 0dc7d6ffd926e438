import { z } from 'zod'
import { findingSchema } from '../finding.ts'
import { allergens as allAllergens } from '../materials/schema.ts'
import { isoDate, list, massKg, oneOf, text } from '../schema.ts'
import { labelPlaces } from './allergens.ts'
import { labelItem } from './label-item.ts'

export const productClasses = ['meat-preparation', 'meat-product', 'other'] as const

export const ingredientsInput = z
  .strictObject({
    jurisdiction: oneOf(labelPlaces),
    /** Everything that goes into the bowl, at its weight when mixed. */
    items: list(labelItem, { min: 1, max: 300 }),
    /** Weight of the finished product, where it differs from what went in. */
    finishedKg: massKg().optional(),
    productClass: oneOf(productClasses).optional(),
    /** Leave added water out where the place lets it be left out. */
    leaveOutWater: z.boolean().optional(),
    groupSpices: z.boolean().optional(),
    additiveBy: oneOf(['name', 'number']).optional(),
    /** Put the minor ingredients after the place's clause, where it has one. */
    minorClause: z.boolean().optional(),
    /** Its kind and its animal are read from the name where they are not given: "beef collagen casing". */
    casing: z
      .strictObject({
        edible: z.boolean(),
        name: text(80).optional(),
        kind: oneOf(['natural', 'collagen', 'cellulose', 'plastic']).optional(),
        species: text(40).optional(),
      })
      .optional(),
    on: isoDate().optional(),
  })
  .superRefine((i, ctx) => {
    if (i.items.reduce((s, x) => s + x.kg, 0) <= 0)
      ctx.addIssue({
        code: 'custom',
        path: ['items'],
        message: 'weigh nothing together; allowed: at least one above 0 kg',
      })
  })

const span = z.strictObject({ start: z.int(), end: z.int() })

export const ingredientsOutput = z.strictObject({
  jurisdiction: z.string(),
  heading: z.string(),
  items: z.array(
    z.strictObject({
      text: z.string(),
      name: z.string(),
      /** Weight it is placed by: at mixing; for water, what is left of it where the place asks for that. */
      kg: z.number(),
      /** Percent of what it is compared with. */
      pct: z.number(),
      allergens: z.array(z.enum(allAllergens)),
      /** Allergens it has to be named for, with the words: kinds of cereal, nut, fish by themselves. */
      named: z.array(z.strictObject({ allergen: z.enum(allAllergens), say: z.array(z.string()) })),
      /** Parts of `text` to set off from the rest, from the first character to the one after the last. */
      emphasised: z.array(span),
      /** Indices of the items it stands for. */
      from: z.array(z.int()),
    }),
  ),
  text: z.string(),
  emphasised: z.array(span),
  /** `text` with what is emphasised in capitals. */
  textCapitals: z.string(),
  contains: z.string().optional(),
  statements: z.array(z.string()),
  notes: z.array(z.string()),
  findings: z.array(findingSchema),
})

export type IngredientsInput = z.infer<typeof ingredientsInput>
export type IngredientsOutput = z.infer<typeof ingredientsOutput>
export type Span = z.infer<typeof span>
