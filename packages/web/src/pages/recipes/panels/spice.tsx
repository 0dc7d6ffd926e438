import { useMemo } from 'preact/hooks'
import type { Recipe } from '@forcemeat/craft/recipe/schema'
import { sheetOf } from '@forcemeat/craft/recipe/sheet'
import { usualDoses, type Usual } from '@forcemeat/craft/season/usual'
import { scalesOf } from '../../../state/batch-plan.ts'
import type { Form } from '../../../state/form.ts'
import { useResource } from '../../../state/resource.ts'
import type { BatchView, InstrumentView, RecipeListed, RecipeVersion } from '../../../state/views.ts'
import { mass, number } from '../../../ui/figures.ts'
import { Sheet } from '../../../ui/sheet.tsx'
import { Panel } from './panel.tsx'
import { PremixForm } from './premix.tsx'
import { Spoon } from './spoon.tsx'

const perKg = (g: number | undefined): string => (g === undefined ? '–' : `${number(g, 3)} g/kg`)
const stands = { usual: 'as usual', less: 'less than ever', more: 'more than ever', new: 'new here' } as const

type Props = {
  form: Form
  recipe: Recipe
  code: string | undefined
  meatKg: number
  instruments: readonly InstrumentView[]
}

/** Versions of the recipe at hand, the newest of the others, and how many batches each has had. */
function useSaved(code: string | undefined) {
  const listed = useResource<{ recipes: readonly RecipeListed[] }>('/api/recipes').value.value?.recipes
  const own = useResource<{ versions: readonly RecipeVersion[] }>(
    code === undefined ? '/api/recipes' : `/api/recipes/${encodeURIComponent(code)}`,
  ).value.value?.versions
  const batches = useResource<{ batches: readonly BatchView[] }>('/api/batches?limit=1000').value.value?.batches
  return useMemo(() => {
    const others = (listed ?? []).filter((r) => r.recipe !== code)
    return [...others, ...(own ?? [])].map(({ recipe, version, body }) => ({
      recipe,
      version,
      body,
      batches: (batches ?? []).filter((b) => b.recipe === recipe && b.version === version).length,
    }))
  }, [listed, own, batches, code])
}

/** Seasoning by the kilogram, against what this kitchen is used to; scale fit, spoons, pre-mixes. */
export function SpicePanel({ form, recipe, code, meatKg, instruments }: Props) {
  const saved = useSaved(code)
  const usual = useMemo(() => usualDoses({ saved, recipe }).lines, [saved, recipe])
  const scales = scalesOf(instruments)
  const sheet = useMemo(
    () => (scales.length > 0 ? sheetOf({ recipe, meatKg, scales }).lines : []),
    [recipe, meatKg, instruments],
  )
  const fitOf = (l: Usual['lines'][number]) => sheet.find((s) => s.material === l.material)
  const unfit = usual.filter((l) => fitOf(l)?.verdict === 'unfit')
  const off = usual.filter((l) => l.stands === 'less' || l.stands === 'more')
  return (
    <Panel
      title="Seasoning"
      headline={`${usual.length} seasonings${off.length > 0 ? `, ${off.length} unlike before` : ''}${unfit.length > 0 ? `, ${unfit.length} below what the scales fit` : ''}`}
    >
      {usual.length > 0 && (
        <Sheet
          caption="Seasonings by the kilogram of meat, and what this kitchen is used to"
          rows={usual}
          rowKey={(l) => l.material}
          columns={[
            { head: 'Seasoning', names: true, cell: (l) => l.name },
            { head: 'Now', num: true, cell: (l) => perKg(l.nowGPerKg) },
            {
              head: 'Usual here',
              num: true,
              cell: (l) =>
                l.versions === 0
                  ? '–'
                  : `${perKg(l.usualGPerKg)} (${number(l.lowGPerKg, 3)} to ${number(l.highGPerKg, 3)})`,
            },
            { head: 'Stands', cell: (l) => (l.stands ? stands[l.stands] : '') },
            { head: 'Weigh', num: true, cell: (l) => mass(fitOf(l)?.targetKg) },
            {
              head: 'Scale',
              cell: (l) => {
                const fit = fitOf(l)
                if (!fit) return ''
                return fit.verdict === 'unfit' ? (
                  <strong class="fault">too little for {fit.scale ?? 'any scale'}</strong>
                ) : (
                  fit.scale
                )
              },
            },
          ]}
        />
      )}
      <p class="hint">From the versions in the record, each counted once and once more for every batch made of it.</p>
      <Spoon form={form} />
      <PremixForm form={form} recipe={recipe} code={code} meatKg={meatKg} instruments={instruments} />
    </Panel>
  )
}
