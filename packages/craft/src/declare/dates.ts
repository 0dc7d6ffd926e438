import { z } from 'zod'
import { findingSchema } from '../finding.ts'
import { figures, judge } from '../rules.ts'
import { recipeKinds } from '../recipe/schema.ts'
import { isoDate, oneOf, tempC, text } from '../schema.ts'
import { labelPlaces } from './allergens.ts'
import { addDays, addMonths, inTwoLanguages, inWords, lastWholeMonth, lastWholeYear } from './calendar.ts'
import { degreesFor } from './fahrenheit.ts'
import { productClasses } from './ingredients-schema.ts'

/** How an end product was judged to keep, by its pH, water activity and moisture to protein. */
export const stabilityFound = ['shelf-stable', 'perishable', 'very-perishable', 'cannot-tell'] as const

/** Ten years and a week: nothing of a sausage maker's keeps longer on a label. */
const LONGEST_DAYS = 3660

export const datesInput = z
  .strictObject({
    jurisdiction: oneOf(labelPlaces),
    /** Day the shelf life runs from. */
    packedOn: isoDate(),
    shelfLifeDays: z
      .int({ error: 'is not a whole number of days; allowed: 0 to 3660' })
      .min(0, { error: 'is below 0; allowed: 0 to 3660 days' })
      .max(LONGEST_DAYS, { error: 'is too long; allowed: 0 to 3660 days' }),
    /** The maker's own proof of that life: challenge test, storage trial, history of results. */
    validation: text(300).optional(),
    storage: oneOf(['chilled', 'frozen', 'ambient']),
    /** Warmest it may be kept at. */
    storageC: tempC().optional(),
    /** Whether, from a microbiological point of view, it is highly perishable. */
    highlyPerishable: z.boolean().optional(),
    /** Whether a stability rule finds it keeps without refrigeration. */
    stableUnrefrigerated: z.boolean().optional(),
    /** What is made, and how the batch was judged to keep: where known, they count for more than what is said of it. */
    kind: oneOf(recipeKinds).optional(),
    stability: oneOf(stabilityFound).optional(),
    productClass: oneOf(productClasses).optional(),
    /** Eaten as sold, with no cooking by the eater. */
    readyToEat: z.boolean(),
    frozenOn: isoDate().optional(),
    /** Month and year, or the year alone, where the place lets a long life go by them. */
    coarse: z.boolean().optional(),
  })
  .superRefine((i, ctx) => {
    // The fields are looked at together even where one of them is no date.
    if (!/^(?:19|2\d)\d\d-\d\d-\d\d$/.test(i.packedOn)) {
      if (/^\d/.test(i.packedOn))
        ctx.addIssue({
          code: 'custom',
          path: ['packedOn'],
          message: `is ${i.packedOn.slice(0, 12)}; allowed: a date of the years 1900 to 2999`,
        })
      return
    }
    if (!(i.shelfLifeDays >= 0 && i.shelfLifeDays <= LONGEST_DAYS) || Number.isNaN(Date.parse(i.packedOn))) return
    if (i.frozenOn !== undefined && i.frozenOn > addDays(i.packedOn, i.shelfLifeDays))
      ctx.addIssue({
        code: 'custom',
        path: ['frozenOn'],
        message: `is ${i.frozenOn}, after the end of the shelf life; allowed: at most ${addDays(i.packedOn, i.shelfLifeDays)}`,
      })
  })

export const datesOutput = z.strictObject({
  kind: z.enum(['use by', 'best before']),
  date: z.string(),
  text: z.string(),
  storageLine: z.string().optional(),
  frozenOn: z.string().optional(),
  /** Text the law prescribes, word for word. */
  statements: z.array(z.string()),
  findings: z.array(findingSchema),
})
export type DatesInput = z.infer<typeof datesInput>
export type DatesOutput = z.infer<typeof datesOutput>

/** What the rulebook gives the core to work with. */
export type DateRules = {
  /** Life, months, up to which a day has to be given, and up to which a month. */
  readonly dayUpToMonths: number
  readonly monthUpToMonths: number
  /** Safe handling instructions of a place for what is not ready to eat. */
  readonly safeHandling: Readonly<Record<string, readonly string[]>>
}

export type DatesQuestion = Pick<
  DatesInput,
  'jurisdiction' | 'storage' | 'productClass' | 'readyToEat' | 'shelfLifeDays'
> & {
  readonly kind?: DatesInput['kind']
  readonly stability?: DatesInput['stability']
  readonly highlyPerishable?: boolean | undefined
  readonly stableUnrefrigerated?: boolean | undefined
  readonly validation?: string | undefined
  readonly storageC?: number | undefined
  readonly frozenOn?: string | undefined
}

/** A best-before date as coarse as its life allows, never later than the day itself. */
function coarsely(packedOn: string, date: string, rules: DateRules): string {
  if (date > addMonths(packedOn, rules.monthUpToMonths)) return `Best before end ${lastWholeYear(date)}`
  if (date > addMonths(packedOn, rules.dayUpToMonths)) return `Best before end ${lastWholeMonth(date)}`
  return `Best before ${inWords(date)}`
}

/** The date in the words and the order the place prescribes. */
function dateText(input: DatesInput, date: string, useBy: boolean, rules: DateRules): string {
  const { jurisdiction, packedOn, coarse } = input
  if (jurisdiction === 'CA') return `Best before / Meilleur avant ${inTwoLanguages(date)}`
  if (jurisdiction === 'AU-NZ') return `${useBy ? 'Use By' : 'Best Before'} ${inWords(date)}`
  if (useBy) return `Use by ${inWords(date)}`
  return coarse ? coarsely(packedOn, date, rules) : `Best before ${inWords(date)}`
}

/** How it is kept. Canada prescribes the words in both languages; a temperature may follow. */
function storageLine({ jurisdiction, storage, storageC }: DatesInput): string | undefined {
  const kept = storageC === undefined ? undefined : degreesFor(jurisdiction, storageC)
  if (jurisdiction === 'CA' && storage !== 'ambient') {
    const words = storage === 'chilled' ? 'Keep refrigerated / Garder réfrigéré' : 'Keep frozen / Garder congelé'
    return kept === undefined ? words : `${words}, max. ${kept}`
  }
  return {
    chilled: kept && `Keep refrigerated, at most ${kept}`,
    frozen: kept && `Keep frozen, at most ${kept}`,
    ambient: kept ? `Keep at most ${kept}, dry` : 'Keep cool and dry',
  }[storage]
}

/**
 * Date and storage line of a pack from the maker's own validated shelf life. Where nobody says whether it is highly perishable, it is taken
 * to be: use by.
 *
 * @source Regulation (EU) 1169/2011, Article 24, Annex III point 6, Annex X; 9 CFR 317.2(l); Food and Drug Regulations (Canada), B.01.007;
 *   Food Standards Code, Standard 1.2.5
 */
export function dates(input: DatesInput): DatesOutput {
  const { jurisdiction, packedOn, shelfLifeDays, storage, frozenOn, readyToEat } = input
  const rules = figures('dates')
  const date = addDays(packedOn, shelfLifeDays)
  // Canada knows one date, the durable life date, whatever the food (B.01.007(6)).
  const useBy = storage === 'chilled' && input.highlyPerishable !== false && jurisdiction !== 'CA'
  const line = storageLine(input)
  return {
    kind: useBy ? 'use by' : 'best before',
    date,
    text: dateText(input, date, useBy, rules),
    ...(line === undefined ? {} : { storageLine: line }),
    ...(frozenOn === undefined ? {} : { frozenOn: `Frozen on ${inWords(frozenOn)}` }),
    statements: readyToEat ? [] : [...(rules.safeHandling[jurisdiction] ?? [])],
    findings: judge('dates', input),
  }
}
