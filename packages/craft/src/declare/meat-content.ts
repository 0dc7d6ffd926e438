import { z } from 'zod'
import { workingSchema, type WorkingStep } from '../finding.ts'
import { figures } from '../rules.ts'
import { list, massKg, oneOf, pct } from '../schema.ts'

export const meatSpecies = [
  'pork',
  'beef',
  'veal',
  'lamb',
  'goat',
  'venison',
  'wild-boar',
  'horse',
  'chicken',
  'turkey',
  'duck',
  'rabbit',
  'other-mammal',
  'other-bird',
] as const

/** How much fat and connective tissue an ingredient called "meat" may hold, by kind; the rulebook's figures. */
export type MeatDefinition = {
  readonly groups: readonly {
    readonly name: string
    readonly species: readonly string[]
    readonly fatPct: number
    readonly collagenInProteinPct: number
  }[]
  /** Wet connective tissue for one part of collagen. */
  readonly connectivePerCollagen: number
}

const part = z
  .strictObject({
    kg: massKg(),
    species: oneOf(meatSpecies),
    fatPct: pct(),
    proteinPct: pct(),
    collagenPct: pct(),
    /** Standard deviation of the fat of this lot, points of percent. */
    fatSdPct: pct().optional(),
  })
  .refine((p) => p.collagenPct <= p.proteinPct, {
    message: 'has collagenPct above proteinPct; allowed: at most the protein it is part of',
    path: ['collagenPct'],
  })
  .refine((p) => p.fatPct + p.proteinPct <= 100.01, {
    message: 'has fat and protein over 100 %; allowed: at most 100 % together',
  })

export const meatContentInput = z
  .strictObject({
    /** The meat parts of the mix; fat is total fat, collagen is 8 × hydroxyproline. */
    parts: list(part, { min: 1, max: 60 }),
    /** Everything that goes into the bowl. */
    totalKg: massKg(),
    /** Weight of the finished product where it loses weight in making. */
    finishedKg: massKg().optional(),
  })
  .superRefine((i, ctx) => {
    const meat = i.parts.reduce((s, p) => s + p.kg, 0)
    if (meat > i.totalKg * (1 + 1e-9))
      ctx.addIssue({
        code: 'custom',
        path: ['totalKg'],
        message: `is ${i.totalKg}, less than the meat parts together (${Number(meat.toFixed(6))}); allowed: at least that`,
      })
    if (i.finishedKg !== undefined && i.finishedKg > i.totalKg * (1 + 1e-9))
      ctx.addIssue({
        code: 'custom',
        path: ['finishedKg'],
        message: `is ${i.finishedKg}, more than totalKg ${i.totalKg}; allowed: at most that`,
      })
  })

export const meatContentOutput = z.strictObject({
  /** Meat content to declare, percent of the mix, or of the finished product where that is given. */
  meatPct: z.number(),
  /** 95 % interval from the spread of fat of the parts; absent where no part says how it spreads. */
  lowPct: z.number().optional(),
  highPct: z.number().optional(),
  /** Largest whole percent the maker can stand behind: the lower end, rounded down. */
  standBehindPct: z.int().optional(),
  /** Where the figure passes 100: the words that take its place. */
  statement: z.string().optional(),
  /**
   * One entry a species. The limits are those of its group, whose meat is taken together: of what counts each species has its share by
   * weight, of the excess fat by its fat, of the excess tissue by its collagen.
   */
  perSpecies: z.array(
    z.strictObject({
      group: z.string(),
      /** The one species of the entry. */
      species: z.array(z.string()),
      meatPct: z.number(),
      /** Lower end of the 95 % interval, where a part says how its fat spreads. */
      lowPct: z.number().optional(),
      excessFatPct: z.number(),
      excessConnectivePct: z.number(),
      /** Percent of the group's own meat that counts as meat. */
      declarablePct: z.number(),
      /** Of all meat of the group. */
      collagenInProteinPct: z.number(),
    }),
  ),
  excessFatPct: z.number(),
  excessConnectivePct: z.number(),
  working: workingSchema,
})

export type MeatContentInput = z.infer<typeof meatContentInput>
export type MeatContentOutput = z.infer<typeof meatContentOutput>

type Group = MeatDefinition['groups'][number]
type Counted = {
  readonly group: Group
  readonly kg: number
  readonly excessFat: number
  readonly excessTissue: number
  readonly declarable: number
  readonly ratio: number
  /** Declarable share at the most and the least fat the spread of the parts leaves, 95 %. */
  readonly fatter: number
  readonly leaner: number
  readonly working: WorkingStep[]
}

/** Two-sided 95 % of the standard normal distribution. */
const Z95 = 1.959964

type Mean = { readonly fat: number; readonly protein: number; readonly collagen: number }

/** Excess connective tissue, then excess fat, percent of the meat. */
function excesses(group: Group, { fat, protein, collagen }: Mean, perCollagen: number) {
  const allowedCollagen = (group.collagenInProteinPct * (protein - collagen)) / (100 - group.collagenInProteinPct)
  const excessCollagen = Math.max(0, collagen - allowedCollagen)
  const excessTissue = Math.min(100 - fat, excessCollagen * perCollagen)
  const allowedFat = (group.fatPct * (100 - excessTissue - fat)) / (100 - group.fatPct)
  const excessFat = Math.max(0, fat - allowedFat)
  return { allowedCollagen, excessTissue, allowedFat, excessFat, declarable: 100 - excessFat - excessTissue }
}

/** The same meat with other fat: what is not fat keeps its make-up. */
function withFat(mean: Mean, fat: number): Mean {
  const held = Math.min(100, Math.max(0, fat))
  const scale = mean.fat >= 100 ? 0 : (100 - held) / (100 - mean.fat)
  return { fat: held, protein: mean.protein * scale, collagen: mean.collagen * scale }
}

type Part = MeatContentInput['parts'][number]

/** Share of one species in what the parts of its group bring together; nothing where they bring none. */
const partOf =
  (parts: readonly Part[], species: string) =>
  (of: (p: Part) => number): number => {
    const all = parts.reduce((s, p) => s + of(p), 0)
    return all === 0 ? 0 : parts.filter((p) => p.species === species).reduce((s, p) => s + of(p), 0) / all
  }

/** The calculation for one group of species, percents of that group's meat. */
function count(group: Group, parts: MeatContentInput['parts'], perCollagen: number): Counted {
  const kg = parts.reduce((s, p) => s + p.kg, 0)
  const mean = (of: 'fatPct' | 'proteinPct' | 'collagenPct') => parts.reduce((s, p) => s + p.kg * p[of], 0) / kg
  const [fat, protein, collagen] = [mean('fatPct'), mean('proteinPct'), mean('collagenPct')]
  const whole = { fat, protein, collagen }
  const { allowedCollagen, excessTissue, allowedFat, excessFat, declarable } = excesses(group, whole, perCollagen)
  const sd = Math.sqrt(parts.reduce((v, p) => v + ((p.kg / kg) * (p.fatSdPct ?? 0)) ** 2, 0))
  const at = (otherFat: number) => excesses(group, withFat(whole, otherFat), perCollagen).declarable
  const say = (step: string, expression: string, value: number, unit = '% of the meat'): WorkingStep => ({
    step: `${group.name}: ${step}`,
    expression,
    value,
    unit,
  })
  return {
    group,
    kg,
    excessFat,
    excessTissue,
    declarable,
    ratio: protein > 0 ? (100 * collagen) / protein : 0,
    fatter: at(fat + Z95 * sd),
    leaner: at(fat - Z95 * sd),
    working: [
      say('fat', 'by weight over the parts', fat),
      say('protein', 'by weight over the parts', protein),
      say('collagen', 'by weight over the parts', collagen),
      say(
        'collagen allowed',
        `${group.collagenInProteinPct} × (protein − collagen) / (100 − ${group.collagenInProteinPct})`,
        allowedCollagen,
      ),
      say('excess connective tissue', `excess collagen × ${perCollagen}`, excessTissue),
      say('fat allowed', `${group.fatPct} × (100 − excess tissue − fat) / (100 − ${group.fatPct})`, allowedFat),
      say('excess fat', 'fat − fat allowed', excessFat),
      say('counts as meat', '100 − excess fat − excess tissue', declarable),
    ],
  }
}

/**
 * Meat content for the ingredient list and the quantity declaration, with excess fat and connective tissue taken out, each group of
 * species by its own limits.
 *
 * @source Regulation (EU) 1169/2011, Annex VII, part B, point 17; FSA guidance notes on meat products (2003), calculation annex
 */
export function meatContent(input: MeatContentInput): MeatContentOutput {
  const { groups, connectivePerCollagen } = figures('meatDefinition')
  const counted = groups.flatMap((g) => {
    const own = input.parts.filter((p) => g.species.includes(p.species))
    return own.length === 0 ? [] : [count(g, own, connectivePerCollagen)]
  })
  const basis = input.finishedKg ?? input.totalKg
  const share = (c: Counted, part: number) => (part * c.kg) / basis
  const sum = (of: (c: Counted) => number) => counted.reduce((s, c) => s + share(c, of(c)), 0)
  const meatPct = sum((c) => c.declarable)
  // Groups spread on their own, so their distances add as squares.
  const away = (of: (c: Counted) => number) =>
    Math.sqrt(counted.reduce((v, c) => v + share(c, of(c) - c.declarable) ** 2, 0))
  const spreads = input.parts.some((p) => (p.fatSdPct ?? 0) > 0)
  const lowPct = meatPct - away((c) => Math.min(c.fatter, c.declarable))
  return {
    meatPct,
    ...(spreads
      ? {
          lowPct,
          highPct: meatPct + away((c) => Math.max(c.leaner, c.declarable)),
          standBehindPct: Math.floor(lowPct + 1e-9),
        }
      : {}),
    // Over 100 the law asks for the weight used for 100 g in place of a percentage.
    ...(meatPct > 100 ? { statement: `made with ${Math.floor(meatPct)} g of meat per 100 g of finished product` } : {}),
    perSpecies: counted.flatMap((c) => {
      const own = input.parts.filter((p) => c.group.species.includes(p.species))
      return [...new Set(own.map((p) => p.species))].map((species) => {
        const part = partOf(own, species)
        return {
          group: c.group.name,
          species: [species],
          meatPct: share(c, c.declarable) * part((p) => p.kg),
          ...(spreads ? { lowPct: share(c, Math.min(c.fatter, c.declarable)) * part((p) => p.kg) } : {}),
          excessFatPct: share(c, c.excessFat) * part((p) => p.kg * p.fatPct),
          excessConnectivePct: share(c, c.excessTissue) * part((p) => p.kg * p.collagenPct),
          declarablePct: c.declarable,
          collagenInProteinPct: c.ratio,
        }
      })
    }),
    excessFatPct: sum((c) => c.excessFat),
    excessConnectivePct: sum((c) => c.excessTissue),
    working: [
      ...counted.flatMap((c) => c.working),
      {
        step: 'meat content',
        expression: `counts as meat × meat / ${input.finishedKg === undefined ? 'all ingredients' : 'finished weight'}`,
        value: meatPct,
        unit: '%',
      },
    ],
  }
}
