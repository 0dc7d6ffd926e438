import type { MeasureOut } from './compute-schema.ts'
import type { Part } from './lines.ts'

const binders = new Set(['cereal', 'starch', 'protein'])
/** Milk products bind when dry; cheese and fresh milk do not count as one. */
const DRY_WATER_PCT = 10
/** Binders of which a rule counts each point more than once: isolated soy protein and caseinate. */
const strong = new Set(['soy-isolate', 'caseinate'])
const notSkeletal = new Set(['offal', 'blood', 'fat', 'rind'])

export const isBinder = ({ material: m }: Part): boolean =>
  binders.has(m.category) || (m.category === 'dairy' && (m.composition.waterPct ?? 100) <= DRY_WATER_PCT)
const animal = new Set([
  'pork',
  'beef',
  'veal',
  'lamb',
  'goat',
  'chicken',
  'turkey',
  'duck',
  'game',
  'offal',
  'fat',
  'rind',
])
/** Protein that is not of meat by 9 CFR 318.22(b): what is neither meat nor a part of an animal such as fat, rind or offal. */
export const isOtherProtein = ({ material: m }: Part): boolean => !m.meatBlock && !animal.has(m.category)
const isLiver = ({ material: m }: Part): boolean => m.category === 'offal' && /liver/i.test(`${m.id} ${m.name}`)

export const kgOf = (parts: readonly Part[], test: (p: Part) => boolean): number =>
  parts.reduce((s, p) => (test(p) ? s + p.kg : s), 0)

/** What the meat alone brings of a component, kg; undefined where some of the meat does not state it. */
function ofMeat(parts: readonly Part[], component: 'fatPct' | 'proteinPct' | 'collagenPct'): number | undefined {
  let kg = 0
  for (const p of parts) {
    if (p.role !== 'meat' || p.kg === 0) continue
    const value = p.composition[component]
    if (value === undefined) return undefined
    kg += (p.kg * value) / 100
  }
  return kg
}

const share = (kg: number | undefined, of: number, what: string): MeasureOut =>
  kg === undefined
    ? {
        missing: `the ${what} of some meat is not known`,
        settle: `the ${what} of each meat, from a table or an analysis`,
      }
    : { value: (100 * kg) / of }

/** Figures by which a product is what it is called: meat, its fat and protein, livers, binders, species; of the formula as weighed. */
export function identityMeasures(parts: readonly Part[], meatKg: number, totalKg: number): Record<string, MeasureOut> {
  const [fat, protein, collagen] = [ofMeat(parts, 'fatPct'), ofMeat(parts, 'proteinPct'), ofMeat(parts, 'collagenPct')]
  const species = new Map<string, number>()
  for (const p of parts)
    if (p.role === 'meat' && p.material.species)
      species.set(p.material.species, (species.get(p.material.species) ?? 0) + p.kg)
  return {
    formulaWaterPct: share(
      kgOf(parts, (p) => p.material.category === 'water'),
      totalKg,
      '',
    ),
    meatPct: share(meatKg, totalKg, ''),
    skeletalMeatPct: share(
      kgOf(parts, (p) => p.role === 'meat' && !notSkeletal.has(p.material.category)),
      totalKg,
      '',
    ),
    liverPct: share(kgOf(parts, isLiver), totalKg, ''),
    binderPct: share(kgOf(parts, isBinder), totalKg, ''),
    strongBinderPct: share(
      kgOf(parts, (p) => strong.has(p.material.id)),
      totalKg,
      '',
    ),
    meatFatPct: share(fat, totalKg, 'fat'),
    meatProteinPct: share(protein, totalKg, 'protein'),
    fatFreeMeatPct: share(fat === undefined ? undefined : meatKg - fat, totalKg, 'fat'),
    ...(protein === 0
      ? {}
      : { collagenOfProteinPct: share(collagen, protein ?? 1, protein === undefined ? 'protein' : 'collagen') }),
    ...Object.fromEntries([...species].map(([s, kg]) => [`species:${s}Pct`, share(kg, meatKg, '')])),
  }
}
