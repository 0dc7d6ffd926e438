import { meatContent, meatSpecies } from '../declare/meat-content.ts'
import { isMechanicallySeparated } from '../declare/label-name.ts'
import { figures } from '../rules.ts'
import type { MeasureOut } from './compute-schema.ts'
import type { Part } from './lines.ts'

type Species = (typeof meatSpecies)[number]
const notMeat = ['rind', 'offal', 'blood']

/** Species of a part by which it counts as meat; nothing for what counts as none. */
function countedAs({ material: m }: Part): Species | undefined {
  if (!m.meatBlock || isMechanicallySeparated(m) || notMeat.includes(m.category)) return undefined
  if (figures('labelling').notMeat.includes(m.id)) return undefined
  return meatSpecies.find((s) => s === m.species) ?? (m.category === 'game' ? 'other-mammal' : undefined)
}

/**
 * Meat to declare, percent of all that goes in, fat and connective tissue over the limits of each kind of animal taken off. Where the
 * collagen of a part is not known it lies between none and all of its protein.
 *
 * @source Regulation (EU) 1169/2011, Annex VII, part B, point 17, by `declare.meat-content`
 */
export function declaredMeat(parts: readonly Part[], totalKg: number): MeasureOut {
  const counted = parts.filter((p) => p.kg > 0 && countedAs(p) !== undefined)
  if (counted.length === 0) return { value: 0 }
  const names = (of: readonly Part[]) => [...new Set(of.map((p) => p.material.name))].join(', ')
  const blank = counted.filter((p) => p.composition.fatPct === undefined || p.composition.proteinPct === undefined)
  if (blank.length > 0)
    return {
      missing: `the fat or protein of ${names(blank)} is not known`,
      settle: `the fat and protein of ${names(blank)}, from a specification or an analysis`,
    }
  const at = (unknown: 'none' | 'all'): number =>
    meatContent({
      parts: counted.map((p) => {
        const proteinPct = p.composition.proteinPct!
        const collagen = p.composition.collagenPct ?? (unknown === 'none' ? 0 : proteinPct)
        return {
          kg: p.kg,
          species: countedAs(p)!,
          fatPct: p.composition.fatPct!,
          proteinPct,
          collagenPct: Math.min(collagen, proteinPct),
        }
      }),
      totalKg,
    }).meatPct
  const open = counted.filter((p) => p.composition.collagenPct === undefined)
  const high = at('none')
  if (open.length === 0) return { value: high }
  const low = at('all')
  return {
    value: (low + high) / 2,
    low,
    high,
    settle: `the collagen of ${names(open)}, from the specification or an analysis of the lot`,
  }
}
