import { z } from 'zod'
import { findingSchema } from '../finding.ts'
import { figures, judge } from '../rules.ts'
import { list, oneOf, pct, text } from '../schema.ts'
import { labelPlaces } from './allergens.ts'

/** What a product is or holds that a word may be due for. */
export const qualifyingFacts = [
  'smoked',
  'smokeFlavoured',
  'cooked',
  'curedItalian',
  'curedByStandardWithoutNitrite',
  'defrosted',
  'looksLikeCut',
  'formedFromPieces',
  'mechanicallySeparated',
  'otherAnimalProtein',
  'offal',
  'sulphited',
  'sweetener',
  'sugars',
  'casingInedible',
  'casingOtherAnimal',
  'fermentedNotHeated',
  'fermentedHeated',
] as const
export type QualifyingFact = (typeof qualifyingFacts)[number]
export type QualifyingFacts = { readonly [F in QualifyingFact]?: boolean | undefined }

/** A word that qualifies a name, as the rulebook holds it. */
export type QualifyingWord = {
  readonly id: string
  readonly place: (typeof labelPlaces)[number]
  readonly when:
    | { readonly fact: QualifyingFact; readonly and?: QualifyingFact; readonly not?: QualifyingFact }
    | { readonly measure: 'addedWaterPct'; readonly over: number; readonly and?: QualifyingFact }
  /** The words that stand beside the name where nothing says it yet. */
  readonly text: string
  /** Words of the name that say it. */
  readonly says: readonly string[]
  /** Words of the list of ingredients, or of the statements behind it, that say it; then nothing stands beside the name. */
  readonly inList?: readonly string[]
  readonly inStatements?: readonly string[]
  /** True where the name may not say it of a product that is not so. */
  readonly onlyWhere?: boolean
}

/** Least protein on the fat-free part, percent, for each word of a cured pork product. */
export type CuredPorkWords = Readonly<
  Record<
    | 'cooked-ham-or-loin'
    | 'cooked-shoulder-butt-or-picnic'
    | 'uncooked-ham-or-loin'
    | 'uncooked-shoulder-butt-or-picnic',
    { readonly plain: number; readonly withNaturalJuices?: number; readonly waterAdded?: number }
  >
>

export type QualifyingQuestion = {
  readonly words: readonly {
    readonly id: string
    readonly due: boolean
    /** Where it stands: in the name, beside it, in the list, in a statement; absent where it stands nowhere. */
    readonly said?: string
    /** True where the name says it of a product that is not so. */
    readonly claimed: boolean
  }[]
}

const facts = Object.fromEntries(qualifyingFacts.map((f) => [f, z.boolean().optional()])) as Record<
  QualifyingFact,
  z.ZodOptional<z.ZodBoolean>
>

export const qualifyingInput = z.strictObject({
  place: oneOf(labelPlaces),
  name: text(120),
  /** What is known of the product; one that is left out is not known. */
  facts: z.strictObject(facts),
  /** Added water, percent of the finished weight. */
  addedWaterPct: pct().optional(),
  /** The list of ingredients and the statements behind it, as they stand on the label. */
  listText: text(8000).optional(),
  statements: list(text(300), { max: 20 }).optional(),
  /** A cured pork product of the United States: its kind, protein on the fat-free part, and the substances added, percent by weight. */
  curedPork: z
    .strictObject({
      product: oneOf([
        'cooked-ham-or-loin',
        'cooked-shoulder-butt-or-picnic',
        'uncooked-ham-or-loin',
        'uncooked-shoulder-butt-or-picnic',
      ]),
      fatFreeProteinPct: pct(),
      addedPct: pct().optional(),
    })
    .optional(),
})

export const qualifyingOutput = z.strictObject({
  words: z.array(
    z.strictObject({
      id: z.string(),
      text: z.string(),
      due: z.enum(['due', 'not due', 'cannot tell']),
      /** Where it stands already. */
      said: z.string().optional(),
      because: z.string(),
    }),
  ),
  /** Words to put beside the name. */
  beside: z.array(z.string()),
  /** What a cured pork product is called after its name; empty for the plain name. */
  curedPorkWords: z.string().optional(),
  findings: z.array(findingSchema),
})
export type QualifyingInput = z.infer<typeof qualifyingInput>
export type QualifyingOutput = z.infer<typeof qualifyingOutput>

const inWords = (f: string): string => f.replaceAll(/[A-Z]/g, (c) => ` ${c.toLowerCase()}`)

/** True or false where what is known settles it, undefined where it does not. */
function dueOf({ when }: QualifyingWord, { facts: known, addedWaterPct }: QualifyingInput): boolean | undefined {
  const base = 'fact' in when ? known[when.fact] : addedWaterPct === undefined ? undefined : addedWaterPct > when.over
  const and = when.and === undefined ? true : known[when.and]
  const negated = 'not' in when && when.not !== undefined ? known[when.not] : false
  if (base === false || and === false || negated === true) return false
  return base === undefined || and === undefined || negated === undefined ? undefined : true
}

const whyOf = (w: QualifyingWord, due: boolean | undefined): string => {
  const what = 'fact' in w.when ? inWords(w.when.fact) : `added water over ${w.when.over} %`
  const with_ = w.when.and === undefined ? '' : ` and ${inWords(w.when.and)}`
  if (due === undefined) return `nobody says whether it holds: ${what}${with_}`
  return due ? `${what}${with_}` : `not: ${what}${with_}`
}

/**
 * Words that qualify the name of a product in a place: due, not due, or not to be told from what is known; with where each stands on the
 * label, and those that have to be put beside the name.
 *
 * @source the rulebook's rows; each finding names its own: Regulation (EU) 1169/2011, Annexes III, VI and VII; 9 CFR 317 and 319;
 *   Food and Drug Regulations (Canada), B.01.006.1; Food Standards Code, Standard 2.2.1
 */
export function qualifying(input: QualifyingInput): QualifyingOutput {
  const { place, name, listText = '', statements = [], curedPork } = input
  const has = (where: string, words: readonly string[]) => words.find((w) => where.toLowerCase().includes(w))
  const words = figures('qualifyingWords')
    .filter((w) => w.place === place)
    .map((w) => {
      const due = dueOf(w, input)
      // "Uncured" says nothing of "cured", and "unsmoked" nothing of smoke.
      const plain = w.says.some((s) => s.startsWith('un'))
        ? name
        : name.replaceAll(/\bun(?:cured|smoked|cooked)\b/gi, '')
      const inName = has(plain, w.says)
      const inList = w.inList && has(listText, w.inList)
      const inStatement = w.inStatements && has(statements.join('. '), w.inStatements)
      const said = inName ? 'in the name' : inList ? 'in the list' : inStatement ? 'in a statement' : undefined
      return { word: w, due, said, claimed: due === false && w.onlyWhere === true && inName !== undefined }
    })
  const beside = words.filter(
    (w) => w.due === true && w.said === undefined && w.word.inList === undefined && w.word.inStatements === undefined,
  )
  return {
    words: words.map(({ word, due, said }) => ({
      id: word.id,
      text: word.text,
      due: due === undefined ? 'cannot tell' : due ? 'due' : 'not due',
      ...(said === undefined ? {} : { said }),
      because: whyOf(word, due),
    })),
    beside: beside.map((w) => w.word.text),
    ...(curedPork === undefined ? {} : { curedPorkWords: porkWords(curedPork) }),
    findings: judge('qualifying', {
      words: words.flatMap((w) => {
        const where = w.said ?? (beside.includes(w) ? 'beside the name' : undefined)
        if (w.due !== true && !w.claimed) return []
        return [
          { id: w.word.id, due: w.due === true, claimed: w.claimed, ...(where === undefined ? {} : { said: where }) },
        ]
      }),
    }),
  }
}

/** What follows the name of a cured pork product, by its protein on the fat-free part (9 CFR 319.104). */
function porkWords({ product, fatFreeProteinPct: p, addedPct }: NonNullable<QualifyingInput['curedPork']>): string {
  const least = figures('curedPorkWords')[product]
  if (p >= least.plain) return ''
  if (least.withNaturalJuices !== undefined && p >= least.withNaturalJuices) return 'with natural juices'
  if (least.waterAdded !== undefined && p >= least.waterAdded) return 'water added'
  return `and water product, ${addedPct === undefined ? 'X' : String(Math.ceil(addedPct - 1e-9))} % of weight is added ingredients`
}
