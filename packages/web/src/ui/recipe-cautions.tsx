import type { Recipe } from '@forcemeat/craft/recipe/schema'
import { recipeCautions } from '@forcemeat/rulebook/recipe/cautions'
import { trichinellaSpeciesOf } from '@forcemeat/rulebook/batch/meat-origin'
import { useMemo } from 'preact/hooks'

type Line = { readonly material: string; readonly lot?: string | undefined }

/** Where the treatment of raw pork is recorded: on each of its lots, or among the stock where none is named yet. */
function Lots({ lines }: { lines: readonly Line[] }) {
  const lots = [
    ...new Set(lines.flatMap((l) => (l.lot !== undefined && trichinellaSpeciesOf(l.material) ? [l.lot] : []))),
  ]
  return lots.length === 0 ? (
    <a href="/stock">Record it on its lots, in the stock</a>
  ) : (
    <>
      Its lots:{' '}
      {lots.map((lot, i) => (
        <span key={lot}>
          {i > 0 && ', '}
          <a href={`/stock/${encodeURIComponent(lot)}`}>{lot}</a>
        </span>
      ))}
      .
    </>
  )
}

/** The cautions a recipe, or a batch of it, is due, in a box each where the hand is. Nothing where it is due none. */
export function RecipeCautions({ recipe, lines = [] }: { recipe: Recipe; lines?: readonly Line[] }) {
  const materials = lines.map((l) => l.material)
  const due = useMemo(() => recipeCautions(recipe, materials), [recipe, materials.join(' ')])
  return (
    <>
      {due.map((c) => (
        <p key={c.id} class="caution">
          <strong>{c.title}</strong> {c.text} {c.id === 'raw-pork' && <Lots lines={lines} />}
        </p>
      ))}
    </>
  )
}
