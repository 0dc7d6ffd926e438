import { findMaterial } from '../materials/materials.ts'
import type { Material } from '../materials/schema.ts'
import type { NutrientKey } from './nutrition-rules.ts'
import type { NutrientComposition, NutritionInput } from './nutrition-schema.ts'

/** What is known of a nutrient: between `low` and `high`, with the parts nobody has a figure for. */
export type Span = { readonly low: number; readonly high: number; readonly missing: readonly string[] }
export type Spans = { readonly [K in NutrientKey]: Span }

type Part = NonNullable<NutritionInput['parts']>[number]

/** Grams of sodium chloride that hold one gram of sodium: 58.443 / 22.990. */
export const SALT_PER_SODIUM_MASS = 58.443 / 22.99

const known = (value: number): Span => ({ low: value, high: value, missing: [] })

/** Databases that print carbohydrate without fibre; every other source of the table means all of it. */
const withoutFibre = ['Ciqual', 'BLS']

/** Composition of a part and where it comes from. */
export function compositionOfPart(part: Part): { composition: NutrientComposition; material?: Material; from: string } {
  const material = part.material === undefined ? undefined : findMaterial(part.material)
  if (part.composition)
    return {
      composition: part.composition,
      ...(material && { material }),
      from: part.source ?? 'as given',
    }
  const m = material!
  return {
    composition: {
      ...m.composition,
      carbohydrateIncludesFibre: !m.sources.some((s) => withoutFibre.some((w) => s.startsWith(w))),
    },
    material: m,
    from: m.sources.join('; '),
  }
}

export const nameOfPart = (part: Part): string =>
  part.name ??
  (part.material === undefined ? undefined : findMaterial(part.material)?.name) ??
  part.material ??
  'a part'

/**
 * Nutrients of 100 g of a part. What no source gives is not zero: it lies between nothing and the most that what is known leaves room for
 * (sugars within carbohydrate, saturated within fat, anything within what is not water, protein, fat, carbohydrate or ash).
 */
export function spansOfPart(part: Part): Spans {
  const { composition: c, material } = compositionOfPart(part)
  const name = nameOfPart(part)
  const upTo = (high: number): Span => (high <= 1e-12 ? known(0) : { low: 0, high, missing: [name] })
  const or = (value: number | undefined, room: number): Span => (value === undefined ? upTo(room) : known(value))
  const mineral = Math.max(c.ashPct ?? 0, c.saltPct ?? 0, c.sodiumPct ?? 0)
  const named =
    (c.waterPct ?? 0) + (c.proteinPct ?? 0) + (c.fatPct ?? 0) + (c.carbohydratePct ?? 0) + (c.alcoholPct ?? 0)
  const rest = Math.max(0, 100 - named - mineral)
  // A chemical the table knows by its formula, with no carbohydrate named: what is not water or mineral is an organic acid or its salt.
  const organic =
    part.composition === undefined &&
    material!.sources.includes('stoichiometry') &&
    c.carbohydratePct === undefined &&
    c.fatPct !== undefined &&
    c.proteinPct !== undefined
  const fat = or(c.fatPct, rest)
  const carbohydrate = organic ? known(0) : or(c.carbohydratePct, rest)
  const inside = c.carbohydrateIncludesFibre
  const fibre = organic
    ? known(0)
    : or(c.fibrePct, inside === true ? carbohydrate.high : rest + (inside === undefined ? carbohydrate.high : 0))
  const both = (a: Span, b: Span, low: number, high: number): Span => ({
    low: Math.max(0, low),
    high: Math.max(0, high),
    missing: [...new Set([...a.missing, ...b.missing])],
  })
  const less = both(carbohydrate, fibre, carbohydrate.low - fibre.high, carbohydrate.high - fibre.low)
  const more = both(carbohydrate, fibre, carbohydrate.low + fibre.low, carbohydrate.high + fibre.high)
  // Where nobody says whether fibre is counted in, both readings stay open.
  const asked = fibre.high === 0 ? [] : [`${name} (whether its carbohydrate includes the fibre)`]
  const open = (a: Span, b: Span): Span => ({
    low: Math.min(a.low, b.low),
    high: Math.max(a.high, b.high),
    missing: [...new Set([...a.missing, ...b.missing, ...asked])],
  })
  const available = inside === true ? less : inside === false ? carbohydrate : open(less, carbohydrate)
  // By difference, an organic acid is carbohydrate.
  const totalCarbohydrate = organic
    ? known(rest)
    : inside === true
      ? carbohydrate
      : inside === false
        ? more
        : open(carbohydrate, more)
  const sugars = or(c.sugarsPct, available.high)
  const sodium = c.sodiumPct ?? (c.saltPct === undefined ? undefined : c.saltPct / SALT_PER_SODIUM_MASS)
  const ashRoom = c.ashPct ?? Math.max(0, 100 - named)
  const trace = Math.max(0, 100 - named) * 1000
  return {
    water: or(c.waterPct, rest),
    fat,
    saturated: or(c.saturatedPct, fat.high),
    trans: or(c.transPct, Math.max(0, fat.high - (c.saturatedPct ?? 0))),
    availableCarbohydrate: available,
    totalCarbohydrate,
    sugars,
    // Sugars, syrups and honey are added sugars; what else may be is for its maker to say.
    addedSugars:
      c.addedSugarsPct !== undefined
        ? known(c.addedSugarsPct)
        : material?.category === 'sugar'
          ? sugars
          : upTo(sugars.high),
    polyols: known(c.polyolsPct ?? 0),
    fibre,
    protein: or(c.proteinPct, rest),
    sodium: or(sodium === undefined ? undefined : sodium * 1000, (ashRoom / SALT_PER_SODIUM_MASS) * 1000),
    alcohol: material?.category === 'alcohol' ? or(c.alcoholPct, rest) : known(c.alcoholPct ?? 0),
    organicAcids: known(organic ? rest : (c.organicAcidsPct ?? 0)),
    cholesterol: or(c.cholesterolMg, fat.high * 1000),
    potassium: or(c.potassiumMg, trace),
    calcium: or(c.calciumMg, trace),
    iron: or(c.ironMg, trace),
    vitaminD: or(c.vitaminDUg, trace * 1000),
    vitaminA: or(c.vitaminAIu, trace * 1000),
    vitaminC: or(c.vitaminCMg, trace),
  }
}
