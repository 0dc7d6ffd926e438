import type { Composition } from '../composition.ts'
import { beefMaterials } from './data/beef.ts'
import { cureMaterials } from './data/cure.ts'
import { lambGameMaterials } from './data/lamb-game.ts'
import { offalMaterials } from './data/offal.ts'
import { pantryMaterials } from './data/pantry.ts'
import { porkMaterials } from './data/pork.ts'
import { poultryMaterials } from './data/poultry.ts'
import { databases, namedSources, type MaterialSource } from './data/sources.ts'
import { spiceMaterials } from './data/spice.ts'
import type { Material } from './schema.ts'

/** The raw materials a sausage kitchen uses. `saltPct` is all the sodium as sodium chloride (× 2.542), added or not. */
export const materials: readonly Material[] = [
  ...porkMaterials,
  ...beefMaterials,
  ...lambGameMaterials,
  ...poultryMaterials,
  ...offalMaterials,
  ...cureMaterials,
  ...spiceMaterials,
  ...pantryMaterials,
]

const byId: ReadonlyMap<string, Material> = new Map(materials.map((m) => [m.id, m]))

/** A material by id, or undefined where the table has none. */
export const findMaterial = (id: string): Material | undefined => byId.get(id)

/** The document behind a source id of the table, with the row's number in its section; undefined for an id that resolves to none. */
export function findSource(sourceId: string): MaterialSource | undefined {
  if (Object.hasOwn(namedSources, sourceId)) return namedSources[sourceId]
  for (const [prefix, source] of Object.entries(databases)) {
    const row = sourceId.slice(prefix.length)
    if (sourceId.startsWith(prefix) && /^[A-Z]?\d{3,6}$/.test(row))
      return { ...source, section: `row ${row}; ${source.section}` }
  }
  return undefined
}

/** Every source of a material, in the order it names them; none for an id the table does not have. */
export const sourceOf = (materialId: string): readonly MaterialSource[] =>
  (findMaterial(materialId)?.sources ?? []).flatMap((s) => findSource(s) ?? [])

/**
 * A material's composition as the calculations take it, or undefined where water, protein or fat has no source. Tables give
 * independent means that may add up to a little over 100 %: those are scaled back to 100 together, so that a mass balance holds.
 */
export function compositionOf(material: Material): Composition | undefined {
  const { waterPct, proteinPct, fatPct, carbohydratePct, ashPct, saltPct, collagenPct } = material.composition
  if (waterPct === undefined || proteinPct === undefined || fatPct === undefined) return undefined
  const sum = waterPct + proteinPct + fatPct + (carbohydratePct ?? 0) + Math.max(ashPct ?? 0, saltPct ?? 0)
  const scale = sum > 100 ? 100 / sum : 1
  return {
    waterPct: waterPct * scale,
    proteinPct: proteinPct * scale,
    fatPct: fatPct * scale,
    ...(carbohydratePct !== undefined && { carbohydratePct: carbohydratePct * scale }),
    ...(ashPct !== undefined && { ashPct: ashPct * scale }),
    ...(saltPct !== undefined && { saltPct: saltPct * scale }),
    ...(collagenPct !== undefined && { collagenPct: collagenPct * scale }),
  }
}
