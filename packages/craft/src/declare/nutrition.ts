import type { WorkingStep } from '../finding.ts'
import { figures, judge } from '../rules.ts'
import { compositionOfPart, nameOfPart, SALT_PER_SODIUM_MASS, type Span, type Spans } from './nutrient-span.ts'
import { apartIn } from './nutrition-apart.ts'
import { made } from './nutrition-mass.ts'
import { rowOf } from './nutrition-row.ts'
import { nutrientKeys, type NutrientKey, type NutritionFormat } from './nutrition-rules.ts'
import type { NutritionInput, NutritionOutput } from './nutrition-schema.ts'
import { declared } from './rounding.ts'

const asGiven: Readonly<Partial<Record<keyof NonNullable<NutritionInput['per100g']>, NutrientKey>>> = {
  fatG: 'fat',
  saturatedG: 'saturated',
  transG: 'trans',
  sugarsG: 'sugars',
  addedSugarsG: 'addedSugars',
  polyolsG: 'polyols',
  fibreG: 'fibre',
  proteinG: 'protein',
  sodiumMg: 'sodium',
  alcoholG: 'alcohol',
  organicAcidsG: 'organicAcids',
  cholesterolMg: 'cholesterol',
  potassiumMg: 'potassium',
  calciumMg: 'calcium',
  ironMg: 'iron',
  vitaminDUg: 'vitaminD',
  vitaminAIu: 'vitaminA',
  vitaminCMg: 'vitaminC',
}

const known = (value: number): Span => ({ low: value, high: value, missing: [] })

/** Figures given for 100 g as sold, by nutrient. */
function givenOf(input: NutritionInput, format: NutritionFormat): Partial<Record<NutrientKey, Span>> {
  const { per100g = {} } = input
  const plain = Object.entries(asGiven).flatMap(([field, key]) => {
    const value = per100g[field as keyof typeof per100g]
    return value === undefined ? [] : [[key, known(value)] as const]
  })
  return {
    ...Object.fromEntries(plain),
    ...(per100g.carbohydrateG === undefined ? {} : { [format.carbohydrate]: known(per100g.carbohydrateG) }),
    ...(per100g.saltG === undefined ? {} : { sodium: known((per100g.saltG / format.saltPerSodium) * 1000) }),
  }
}

/** Nothing is known where there are no parts, except what a food holds none of unless somebody says so. */
const unknown = (key: NutrientKey): Span =>
  key === 'polyols' || key === 'alcohol' || key === 'organicAcids'
    ? known(0)
    : { low: 0, high: 100_000, missing: ['not given'] }

/** Polyols are no available carbohydrate where they have factors of their own; without those, carbohydrate and energy stay open. */
function withoutPolyols(spans: Spans): Spans {
  const { polyols, availableCarbohydrate: c } = spans
  if (polyols.high <= 0) return spans
  return {
    ...spans,
    availableCarbohydrate: {
      low: Math.max(0, c.low - polyols.high),
      high: c.high,
      missing: [...c.missing, 'factors of the polyols in it'],
    },
  }
}

/**
 * The nutrition table of a place from what went into the bowl, from an analysis, or from both: unrounded, rounded by the place's rules,
 * with the source of every value. A value that is not known prints only where everything it could be prints the same.
 *
 * @throws InvalidInput where more water or fat leaves than went in
 * @source Regulation (EU) 1169/2011, Annexes I, XIV, XV; Commission guidance on tolerances (December 2012), section 6; 21 CFR 101.9(c);
 *   Food and Drug Regulations (Canada), B.01.401; Food Standards Code, Standard 1.2.8 and Schedule 11
 */
export function nutrition(input: NutritionInput): NutritionOutput {
  const { jurisdiction, servingG, parts, on } = input
  const formats = figures('nutrition')[jurisdiction] ?? []
  const format = formats.find((f) => f.id === input.format) ?? formats[0]!
  const given = givenOf(input, format)
  const mass = parts === undefined ? undefined : made(input)
  const found = Object.fromEntries(
    nutrientKeys.map((k) => [k, given[k] ?? mass?.spans[k] ?? unknown(k)]),
  ) as unknown as Spans
  const spans = format.polyolsNotHeld ? withoutPolyols(found) : found
  const panel = format.rows.map((rule) => rowOf(rule, format, spans, servingG, (keys) => sourcesOf(input, keys, given)))
  const printed = (r: (typeof panel)[number]) => {
    if (format.basis === 'per serving') return r.declaredPerServing ?? r.declaredDv
    return format.bothColumns && r.declaredPerServing === undefined ? undefined : r.declaredPer100g
  }
  const blank = panel.filter((r) => r.mandatory && printed(r) === undefined)
  const loses = input.finishedKg !== undefined || (input.lossPct ?? 0) > 0
  const fatLossUnknown = loses && input.fatLossKg === undefined && given.fat === undefined
  const { reference } = referenceOf(input)
  const servings = input.packG === undefined || servingG === undefined ? undefined : input.packG / servingG
  return {
    jurisdiction,
    format: format.id,
    basis: format.basis,
    columns: format.bothColumns ? ['per serving', 'per 100 g'] : [format.basis],
    ...(format.servingWords ? { servingWords: { ...format.servingWords } } : {}),
    footnotes: servingG === undefined ? [] : [...(format.footnotes ?? [])],
    complete: blank.length === 0 && !fatLossUnknown,
    panel,
    ...(servings !== undefined && format.servings && servings >= (format.servingsFrom ?? 2)
      ? { servingsPerContainer: declared(format.servings, servings).text }
      : {}),
    ...(reference ? { reference } : {}),
    ...(mass ? { finishedKg: mass.finishedKg, waterLossKg: mass.waterLossKg, fatLossKg: mass.fatLossKg } : {}),
    notes: notesOf(input, fatLossUnknown),
    findings: judge('nutrition', {
      jurisdiction,
      format: format.id,
      unknown: blank.map((r) => ({ label: r.label, missing: r.missing })),
      rows: panel.filter((r) => r.mandatory).length,
      fatLossUnknown,
      ...(mass ? { apart: apartIn(format, panel, given, mass, servingG, loses && input.fatLossKg === undefined) } : {}),
      ...(reference && servingG !== undefined ? { serving: { g: servingG, referenceG: reference.g } } : {}),
      ...(on === undefined ? {} : { on }),
    }),
    working: [...(mass?.working ?? []), ...energySteps(format, spans)],
  }
}

function sourcesOf(
  input: NutritionInput,
  keys: readonly NutrientKey[],
  given: Partial<Record<NutrientKey, Span>>,
): string[] {
  const analysed = keys.some((k) => given[k] !== undefined)
  const computed = keys.some((k) => given[k] === undefined)
  return [
    ...(analysed ? [input.per100gSource ?? 'given for 100 g as sold'] : []),
    ...(computed ? (input.parts ?? []).map((p) => `${nameOfPart(p)}: ${compositionOfPart(p).from}`) : []),
  ]
}

function referenceOf({ referenceClass, uncooked }: NutritionInput): Pick<NutritionOutput, 'reference'> {
  const amount = referenceClass === undefined ? undefined : figures('referenceAmounts')[referenceClass]
  const g = amount && (uncooked ? amount.uncookedG : amount.servedG)
  return amount && g !== undefined ? { reference: { g, mark: amount.mark } } : {}
}

function notesOf(input: NutritionInput, fatLossUnknown: boolean): string[] {
  const sodiumFromSalt = (input.parts ?? []).filter((p) => {
    const { composition: c } = compositionOfPart(p)
    return c.sodiumPct === undefined && c.saltPct !== undefined
  })
  return [
    ...(fatLossUnknown ? ['all of the loss is taken as water: fat and energy are then the most they can be'] : []),
    ...(input.parts && (input.finishedKg !== undefined || input.lossPct !== undefined)
      ? ['salt and soluble protein that run off with the juice are not taken off']
      : []),
    ...(sodiumFromSalt.length > 0
      ? [
          `sodium of ${sodiumFromSalt.map(nameOfPart).join(', ')} is its salt / ${SALT_PER_SODIUM_MASS.toFixed(3)}, the share of sodium in sodium chloride`,
        ]
      : []),
  ]
}

function energySteps(format: NutritionFormat, spans: Spans): WorkingStep[] {
  return format.rows.flatMap((r) => {
    if (!('energy' in r.of)) return []
    const terms = Object.entries(r.of.energy) as [NutrientKey, number][]
    const used = terms.filter(([k]) => spans[k].high > 0)
    return [
      {
        step: `${r.label} of 100 g`,
        expression: used.map(([k, f]) => `${Number(spans[k].high.toFixed(3))} g ${k} × ${f}`).join(' + ') || '0',
        value: terms.reduce((e, [k, f]) => e + spans[k].high * f, 0),
        unit: r.unit,
      },
    ]
  })
}
