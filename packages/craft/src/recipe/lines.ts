import { InvalidInput, type Fault } from '../calculation.ts'
import { findMaterial } from '../materials/materials.ts'
import type { Material } from '../materials/schema.ts'
import type { Lot, RecipeComputeInput } from './compute-schema.ts'

/** One weighed part of a mix with all that is known of it: the material, changed by what its lot says of itself. */
export type Part = {
  readonly material: Material
  readonly lot: Lot | undefined
  readonly role: 'meat' | 'addition'
  readonly kg: number
  readonly composition: Material['composition']
  readonly fatSdPct: number | undefined
  readonly costPerKg: number | undefined
}

/** Components that scale with fat-free tissue when a lot's fat differs from the table's. */
const lean = [
  'waterPct',
  'proteinPct',
  'carbohydratePct',
  'sugarsPct',
  'fibrePct',
  'ashPct',
  'saltPct',
  'sodiumPct',
  'collagenPct',
] as const

/**
 * Composition of a material at another fat. What is not fat keeps its make-up, so each other part scales with (100 − fat). Fat of a
 * material that was all fat, or of unknown fat, cannot be scaled from: only the fat is then known.
 */
export function atFat(composition: Material['composition'], fatPct: number): Material['composition'] {
  const from = composition.fatPct
  if (from === fatPct) return composition
  if (from === undefined || from >= 100) return { fatPct }
  const factor = (100 - fatPct) / (100 - from)
  const scaled: Record<string, number> = { fatPct }
  for (const c of lean) if (composition[c] !== undefined) scaled[c] = composition[c] * factor
  // Saturated fat goes with the fat.
  if (composition.saturatedPct !== undefined && from > 0)
    scaled['saturatedPct'] = (composition.saturatedPct * fatPct) / from
  return scaled
}

type Lookup = { readonly find: (id: string) => Material | undefined }

export function lookupOf(own: readonly Material[] | undefined): Lookup {
  const mine = new Map((own ?? []).map((m) => [m.id, m]))
  return { find: (id) => mine.get(id) ?? findMaterial(id) }
}

const noMaterial = (path: string, id: string): Fault => ({
  path,
  message: `is ${JSON.stringify(id)}; allowed: the id of a material of the table, or of one given in materials`,
})

/** The parts of a recipe at a size, or of the weights given. @throws InvalidInput naming each material or lot that is not known. */
export function partsOf(input: RecipeComputeInput): {
  readonly parts: readonly Part[]
  readonly notes: readonly string[]
} {
  const { recipe, meatKg, lots = [], prices = [] } = input
  const { find } = lookupOf(input.materials)
  const faults: Fault[] = []
  const notes: string[] = []
  const meatIds = new Set(recipe.meat.map((m) => m.material))
  const additionIds = new Set(recipe.additions.map((m) => m.material))
  lots.forEach((l, i) => {
    if (!find(l.material)) faults.push(noMaterial(`lots[${i}].material`, l.material))
  })

  const make = (
    path: string,
    id: string,
    kg: number,
    role: Part['role'] | undefined,
    lotName: string | undefined,
  ): Part[] => {
    const material = find(id)
    if (!material) {
      faults.push(noMaterial(`${path}.material`, id))
      return []
    }
    const ofIt = lots.filter((l) => l.material === id)
    const lot = lotName === undefined ? ofIt[0] : ofIt.find((l) => l.lot === lotName)
    if (lotName !== undefined && !lot) {
      faults.push({
        path: `${path}.lot`,
        message: `is ${JSON.stringify(lotName)}; allowed: a lot of ${id} given in lots`,
      })
      return []
    }
    if (lotName === undefined && ofIt.length > 1)
      notes.push(
        `${material.name} has ${ofIt.length} lots; the first, ${ofIt[0]!.lot}, is reckoned with until the weights say otherwise`,
      )
    if (lot?.fatPct !== undefined && lot.soldFatPct !== undefined && lot.fatPct !== lot.soldFatPct)
      notes.push(
        `${material.name}, lot ${lot.lot}: sold as ${lot.soldFatPct} % fat, analysed at ${lot.fatPct} %; the analysis is reckoned with`,
      )
    const fatSdPct = lot?.fatSdPct ?? material.fatSdPct
    const costPerKg = lot?.costPerKg ?? prices.find((p) => p.material === id)?.costPerKg
    const atItsFat = lot?.fatPct === undefined ? material.composition : atFat(material.composition, lot.fatPct)
    const composition = lot?.collagenPct === undefined ? atItsFat : { ...atItsFat, collagenPct: lot.collagenPct }
    return [
      { material, lot, role: role ?? (material.meatBlock ? 'meat' : 'addition'), kg, composition, fatSdPct, costPerKg },
    ]
  }

  const roleOf = (id: string): Part['role'] | undefined =>
    meatIds.has(id) ? 'meat' : additionIds.has(id) ? 'addition' : undefined
  const parts = input.lines
    ? input.lines.flatMap((l, i) => make(`lines[${i}]`, l.material, l.kg, roleOf(l.material), l.lot))
    : [
        ...recipe.meat.flatMap((m, i) =>
          make(`recipe.meat[${i}]`, m.material, (meatKg * m.pct) / 100, 'meat', undefined),
        ),
        ...recipe.additions.flatMap((a, i) =>
          make(`recipe.additions[${i}]`, a.material, (meatKg * a.pct) / 100, 'addition', undefined),
        ),
      ]
  if (faults.length === 0 && !parts.some((p) => p.role === 'meat' && p.kg > 0))
    faults.push({ path: 'lines', message: 'hold no meat; allowed: at least one part of the meat block above 0 kg' })
  if (faults.length > 0) throw new InvalidInput(faults)
  for (const p of parts)
    if (p.role === 'addition' && p.material.meatBlock && p.kg > 0)
      notes.push(
        `${p.material.name} is meat by the table and stands among the additions: cure is reckoned on the meat block without it`,
      )
  return { parts, notes }
}
