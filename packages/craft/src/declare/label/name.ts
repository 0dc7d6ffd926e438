import type { Finding } from '../../finding.ts'
import { productName } from '../product-name.ts'
import { meatSpeciesOf } from './meat-quid.ts'
import type { LabelInput } from './schema.ts'

/** Reserved names the label uses that the composition does not allow, and words that stand beside the name. */
export function nameOf(input: LabelInput, cured: boolean, name: string) {
  const { product, place, items, packedOn } = input
  const species = [...new Set(items.flatMap((i) => (i.kg > 0 ? (meatSpeciesOf(i.material) ?? []) : [])))]
  const says = (word: string) => name.toLowerCase().includes(word)
  const judged =
    species.length === 0
      ? []
      : productName({
          jurisdictions: [place],
          kind: product.kind,
          smoked: product.smoked,
          cured,
          species,
          measures: product.measures ?? {},
          on: packedOn,
        }).names.filter((n) =>
          n.name
            .toLowerCase()
            .split(/[,(/]| or /)
            .some((w) => w.trim() !== '' && says(w.trim())),
        )
  const beside = [
    ...(product.smoked && !says('smoked') ? ['smoked'] : []),
    ...(product.kind === 'cooked' && !says('cooked') ? ['cooked'] : []),
    ...(input.pack.storage === 'frozen' && !says('frozen') ? ['frozen'] : []),
  ]
  // One name may go by several standards; one that passes carries it.
  const byName = [...Map.groupBy(judged, (n) => n.name).values()]
  const findings: Finding[] = byName.flatMap((all) =>
    all.some((n) => n.composition === 'pass') ? [] : all.flatMap((n) => n.findings),
  )
  return { beside, findings }
}
