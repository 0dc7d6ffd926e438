import { refuse, submit, useForm } from '../../state/form.ts'
import { keptOf } from '../../state/kitchen-kept.ts'
import { compact } from '../../state/reader.ts'
import { system } from '../../state/who.ts'
import type { KitchenView } from '../../state/views.ts'
import { editable, editableQuantity } from '../../ui/figures.ts'
import { EntryForm, FormQuantity, FormText } from '../../ui/form.tsx'

type Kitchen = NonNullable<KitchenView['kitchen']>
const fields = ['yieldMinPct', 'linkMinG', 'linkMaxG'] as const

/** The kitchen's own limits of yield and link weight for one recipe; what it set for others stays as it is. */
export function RecipeLimits({ kitchen, recipe }: { kitchen: Kitchen; recipe: string }) {
  const all = kitchen.ownLimits?.byRecipe ?? []
  const own = all.find((o) => o.recipe === recipe)
  const unit = system.value === 'us' ? 'oz' : 'g'
  const grams = (g: number | undefined): string => (g === undefined ? '' : editableQuantity(g / 1000, 'mass', unit))
  const form = useForm(`recipe-limits-${recipe}-${kitchen.seq ?? 0}-${system.value}`, {
    yieldMinPct: editable(own?.yieldMinPct),
    linkMinG: grams(own?.linkMinG),
    linkMaxG: grams(own?.linkMaxG),
  })
  const send = (): void => {
    const { seq } = kitchen
    if (seq === undefined)
      return refuse(form, [{ path: '', message: 'the entry of the kitchen is not known; reload the page' }])
    void submit(form, {
      read: (r) => {
        const why = r.text('why', { required: true })
        const link = (name: string): number | undefined => {
          const kg = r.quantity(name, 'mass')
          return kg === undefined ? undefined : Number((kg * 1000).toFixed(6))
        }
        const set = compact({
          yieldMinPct: r.quantity('yieldMinPct', 'percent'),
          linkMinG: link('linkMinG'),
          linkMaxG: link('linkMaxG'),
        })
        if (set.linkMinG !== undefined && set.linkMaxG !== undefined && set.linkMinG > set.linkMaxG)
          r.fault('linkMaxG', 'is under the lightest; allowed: that or more')
        if (why === undefined) return undefined
        const byRecipe = [
          ...all.filter((o) => o.recipe !== recipe),
          ...(Object.keys(set).length > 0 ? [{ recipe, ...set }] : []),
        ]
        const { byRecipe: _, ...rest } = kitchen.ownLimits ?? {}
        const ownLimits = { ...rest, ...(byRecipe.length > 0 ? { byRecipe } : {}) }
        const { ownLimits: _before, ...kept } = keptOf(kitchen)
        return {
          kind: 'kitchen.set',
          corrects: seq,
          why,
          body: { ...kept, ...(Object.keys(ownLimits).length > 0 ? { ownLimits } : {}) },
        }
      },
      clear: false,
    })
  }
  return (
    <EntryForm
      form={form}
      fields={[...fields, 'why']}
      label="Own limits of yield and links"
      action="Set these limits"
      quiet
      onSubmit={send}
    >
      <h2>Own limits of yield and links</h2>
      <p class="hint">
        No law names them: they are drawn into the charts, and no batch is judged by them. An empty field sets none.
      </p>
      <FormQuantity form={form} name="yieldMinPct" kind="percent" label="Least packed, of what was weighed in" />
      <FormQuantity form={form} name="linkMinG" kind="mass" unit="g" label="Lightest mean weight of a link" />
      <FormQuantity form={form} name="linkMaxG" kind="mass" unit="g" label="Heaviest mean weight of a link" />
      <FormText form={form} name="why" label="Why these" required />
    </EntryForm>
  )
}
