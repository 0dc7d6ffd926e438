import { acceleratorCaution, nitriteCaution } from '@forcemeat/craft/cure/caution'
import { findMaterial } from '@forcemeat/craft/materials/materials'
import { Caution } from './notes.tsx'

const poisons = ['sodiumNitritePct', 'potassiumNitritePct', 'sodiumNitratePct', 'potassiumNitratePct'] as const
const accelerators = ['sodiumErythorbatePct', 'sodiumAscorbatePct', 'erythorbicAcidPct', 'ascorbicAcidPct'] as const

/** The caution that goes with a material where the hand is; a cure of unknown make-up is taken as one with nitrite. */
export function CureCaution({ material }: { material: string }) {
  const found = findMaterial(material)
  if (!found) return null
  const holds = (keys: readonly (keyof NonNullable<typeof found.agent>)[]): boolean =>
    keys.some((k) => (found.agent?.[k] ?? 0) > 0)
  if (holds(poisons) || (found.category === 'cure' && !found.agent)) return <Caution>{nitriteCaution}</Caution>
  return holds(accelerators) ? <Caution>{acceleratorCaution}</Caution> : null
}
