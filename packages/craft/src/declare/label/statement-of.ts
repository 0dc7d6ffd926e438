import { findMaterial } from '../../materials/materials.ts'
import type { LabelItem } from '../label-item.ts'
import type { NutritionInput } from '../nutrition-schema.ts'
import { atFat } from '../../recipe/lines.ts'
import type { SupplierStatement } from './pack.ts'
import type { LabelInput } from './schema.ts'

export type Weighed = LabelInput['items'][number]
export type Stated = { readonly item: Weighed; readonly statement?: SupplierStatement; readonly otherSupplier?: string }

/**
 * The supplier's statement that holds for what was weighed. One that names a supplier holds for lots of that supplier alone; for a recipe,
 * which has no lots yet, for the material. One that names none holds only where the supplier is not known either.
 */
export function statementOf(item: Weighed, statements: readonly SupplierStatement[], ofBatch = false): Stated {
  const own = statements.filter((s) => s.material === item.material)
  const statement =
    item.supplier === undefined
      ? (own.find((s) => s.supplier === undefined) ?? (ofBatch ? undefined : own[0]))
      : own.find((s) => s.supplier === item.supplier)
  if (statement) return { item, statement }
  const other = own[0]
  return other === undefined ? { item } : { item, otherSupplier: other.supplier ?? 'no named supplier' }
}

/** Composition to reckon with: the supplier's, or the table's at the fat found in the lot. */
export function compositionFor({ item, statement }: Stated) {
  if (statement?.composition) return { ...statement.composition }
  const material = findMaterial(item.material)
  if (!material) return undefined
  const collagenPct = item.collagenPct ?? statement?.collagenPct
  const collagen = collagenPct === undefined ? {} : { collagenPct }
  return {
    ...(item.fatPct === undefined ? material.composition : atFat(material.composition, item.fatPct)),
    ...collagen,
  }
}

export const labelItemOf = (
  { item, statement }: Stated,
  quid: Readonly<Record<string, number>>,
  quidOf: (material: string) => string | undefined,
): LabelItem => {
  const species = quidOf(item.material)
  return {
    kg: item.kg,
    material: item.material,
    ...(statement?.name === undefined ? {} : { name: statement.name }),
    ...(statement ? { allergens: [...statement.allergens], allergenSource: statement.document } : {}),
    ...(statement?.mayContain ? { mayContain: [...statement.mayContain] } : {}),
    ...(statement?.parts ? { parts: statement.parts.map((p) => ({ ...p })) } : {}),
    ...(species === undefined || quid[species] === undefined ? {} : { quidPct: quid[species] }),
  }
}

export const nutritionPart = (stated: Stated): NonNullable<NutritionInput['parts']>[number] => {
  const { item, statement } = stated
  const composition = compositionFor(stated)
  const lot = item.lot === undefined ? '' : ` lot ${item.lot}`
  const own = statement?.composition !== undefined
  return {
    kg: item.kg,
    material: item.material,
    ...(composition !== undefined && (own || item.fatPct !== undefined)
      ? {
          composition: { ...composition },
          source: own ? statement.document : `table at the fat found in${lot}, ${item.fatPct} %`,
        }
      : {}),
  }
}
