import { z } from 'zod'
import { allergens as allAllergens } from '../../materials/schema.ts'
import { isoDate, lengthMm, line, list, massG, oneOf, pct, quantity, tempC } from '../../schema.ts'
import { inStoreInput } from '../in-store-code.ts'
import { productClasses } from '../ingredients-schema.ts'
import { nutrientComposition, nutritionInput } from '../nutrition-schema.ts'
import { labelLanguages } from './languages.ts'

export const labelLayouts = ['column', 'two-columns', 'head-and-columns', 'strip', 'front-and-back'] as const
/** Parts of the text that is read, in their usual order. */
export const labelParts = ['ingredients', 'allergens', 'statements', 'date', 'handling', 'lot', 'business'] as const
export type LabelPart = (typeof labelParts)[number]
export const languageArrangements = ['under', 'beside'] as const
export const premisesRoutes = ['inspected', 'exempt'] as const
/** Ways to set the nutrition panel of the United States. */
export const panelDisplays = ['vertical', 'tabular', 'linear'] as const
export const labelCodes = ['gs1-128', 'gs1-datamatrix', 'ean-13', 'none'] as const

/** A supplier's word on a material: what it carries, what it is made of, and the document that says so. */
export const supplierStatement = z
  .strictObject({
    material: line(60),
    /** Whose material; a statement holds for this supplier alone. */
    supplier: line(120).optional(),
    /** Name on the label, where the material's own does not serve. */
    name: line(120).optional(),
    allergens: list(oneOf(allAllergens), { max: 15 }),
    mayContain: list(oneOf(allAllergens), { max: 15 }).optional(),
    document: line(200),
    /** Own list of a compound material, most first. */
    parts: list(
      z.strictObject({
        name: line(120),
        pct: pct().optional(),
        allergens: list(oneOf(allAllergens), { max: 15 }).optional(),
      }),
      { min: 1, max: 60 },
    ).optional(),
    composition: nutrientComposition.optional(),
    /** Collagen of a meat, where the table gives none; the rest of its composition stays the table's. */
    collagenPct: pct().optional(),
  })
  .superRefine(({ parts = [] }, ctx) => {
    const sum = parts.reduce((s, p) => s + (p.pct ?? 0), 0)
    // A list rounded part by part may come out a little over.
    if (sum > 100.5)
      ctx.addIssue({
        code: 'custom',
        path: ['parts'],
        message: `add up to ${Number(sum.toFixed(2))} %; allowed: at most 100 % together`,
      })
  })
export type SupplierStatement = z.infer<typeof supplierStatement>

const distinct = <T>(of: readonly T[], by: (t: T) => string): boolean => new Set(of.map(by)).size === of.length

/** A language of the label, the product's name in it, and the maker's words for texts of the label. */
const packLanguage = z.strictObject({
  language: oneOf(labelLanguages),
  name: line(120).optional(),
  words: list(z.strictObject({ of: line(300), is: line(400) }), { max: 120 }).optional(),
})

const { prefix, item, of, digits, decimals, verifier } = inStoreInput.shape
/** Number of thirteen digits with price or weight in it; the weight is the pack's own. */
const packInStore = z
  .strictObject({
    prefix,
    item,
    of,
    digits,
    decimals,
    verifier,
    price: quantity('money', { min: 0, max: 999_999 }).optional(),
  })
  .refine((i) => i.of === 'weight' || i.price !== undefined, {
    path: ['price'],
    error: 'is missing; allowed: the price the number is to hold',
  })

/** What the maker says of the pack, over and above what the recipe and the lots say. */
export const labelPack = z.strictObject({
  /** Name on the label; the recipe's own where it is absent. */
  name: line(120).optional(),
  netG: massG().optional(),
  gtin: z.string({ error: 'is not a text; allowed: 8, 12, 13 or 14 digits' }).max(14).optional(),
  code: oneOf(labelCodes).optional(),
  /** For an EAN-13 that is read in a shop or a country only, in place of the trade item number. */
  inStore: packInStore.optional(),
  lotPattern: line(60).optional(),
  packedOn: isoDate().optional(),
  shelfLifeDays: z
    .int({ error: 'is not a whole number of days; allowed: 0 to 3660' })
    .min(0, { error: 'is below 0; allowed: 0 to 3660 days' })
    .max(3660, { error: 'is too long; allowed: 0 to 3660 days' })
    .optional(),
  validation: line(300).optional(),
  storage: oneOf(['chilled', 'frozen', 'ambient']).optional(),
  storageC: tempC().optional(),
  highlyPerishable: z.boolean().optional(),
  stableUnrefrigerated: z.boolean().optional(),
  frozenOn: isoDate().optional(),
  coarse: z.boolean().optional(),
  productClass: oneOf(productClasses).optional(),
  /** Responsible business as it stands on the label, and its approval or establishment number. */
  business: line(200).optional(),
  approval: line(40).optional(),
  /** How the place it is made in stands: inspected or approved under the number above, or under an exemption its maker names. */
  premises: z
    .strictObject({
      route: oneOf(premisesRoutes),
      /** Country of an approved establishment, as its mark has it: a two-letter code, or UK(NI). */
      country: z
        .string({ error: 'is not a text; allowed: a code of two capitals, or UK(NI)' })
        .regex(/^(?:[A-Z]{2}|UK\(NI\))$/, { error: 'is no code of a country; allowed: two capitals, or UK(NI)' })
        .optional(),
      /** The exemption, and where it is written. */
      because: line(300).optional(),
      /** Room left for a legend that is printed from approved artwork, across. */
      roomMm: quantity('mm', { min: 10, max: 80 }).optional(),
    })
    .optional(),
  origin: line(120).optional(),
  /** The maker's own lines: how to cook it, what to do after opening. */
  handling: list(line(300), { max: 8 }).optional(),
  casing: z.strictObject({ edible: z.boolean(), name: line(80).optional() }).optional(),
  groupSpices: z.boolean().optional(),
  /** What the words beside the name turn on and neither recipe nor lots can say. */
  defrosted: z.boolean().optional(),
  looksLikeCut: z.boolean().optional(),
  formedFromPieces: z.boolean().optional(),
  /** Packed under a gas that lengthens its life. */
  protectiveAtmosphere: z.boolean().optional(),
  otherAnimalProtein: z.boolean().optional(),
  additiveBy: oneOf(['name', 'number']).optional(),
  statements: list(supplierStatement, { max: 60 }).optional(),
  crossContact: list(z.strictObject({ allergen: oneOf(allAllergens), because: line(300) }), { max: 15 }).optional(),
  servingG: massG().optional(),
  per100g: nutritionInput.shape.per100g,
  per100gSource: line(200).optional(),
  /** Fat that runs off in cooking, percent of the mix; 0 where none drips. */
  fatLossPct: pct().optional(),
  /** Area of the largest surface of the pack. */
  largestSurfaceCm2: quantity('cm²', { above: 0, max: 100_000 }).optional(),
  layout: oneOf(labelLayouts).optional(),
  widthMm: lengthMm().optional(),
  heightMm: lengthMm().optional(),
  /** Languages in their order; those the place suggests where it is absent. */
  languages: list(packLanguage, { min: 1, max: 4 })
    .refine((l) => distinct(l, (x) => x.language), { error: 'names a language twice; allowed: each once' })
    .optional(),
  /** Languages one under another, or beside each other in columns. */
  languageArrangement: oneOf(languageArrangements).optional(),
  /** Order of the parts; those it does not name follow in the usual one. */
  order: list(oneOf(labelParts), { min: 1, max: labelParts.length })
    .refine((o) => distinct(o, (x) => x), { error: 'names a part twice; allowed: each once' })
    .optional(),
  /** White between the edge and what is printed. */
  marginMm: quantity('mm', { min: 1, max: 30 }).optional(),
  /** Height of the lower-case x, where it is to be another than the least of the place. */
  xHeightMm: quantity('mm', { min: 0.5, max: 10 }).optional(),
  /** Width of the thinnest bar or the square of a code, where it is to be another than the usual. */
  moduleMm: quantity('mm', { min: 0.1, max: 2 }).optional(),
  /** Nutrition panel of the United States: the rule of 2016, or the format 9 CFR 317.309 still holds. */
  panel: oneOf(['us-2016', 'us-1993']).optional(),
  /** How it is set: vertical where nothing is said; the others only where the pack is too small for it. */
  panelDisplay: oneOf(panelDisplays).optional(),
  /** All of the surface of the pack that a label could stand on. */
  availableSurfaceCm2: quantity('cm²', { above: 0, max: 1_000_000 }).optional(),
})
export type LabelPack = z.infer<typeof labelPack>
