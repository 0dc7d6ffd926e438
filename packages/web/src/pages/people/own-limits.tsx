import { refuse, submit, useForm } from '../../state/form.ts'
import { compact } from '../../state/reader.ts'
import { system } from '../../state/who.ts'
import type { KitchenView } from '../../state/views.ts'
import { editable, temperature } from '../../ui/figures.ts'
import { EntryForm, FormQuantity, FormText } from '../../ui/form.tsx'

type Kitchen = NonNullable<KitchenView['kitchen']>

/** Limits the kitchen sets itself; they are shown as advice beside the law, and never in its place. */
export function OwnLimits({ kitchen, kept }: { kitchen: Kitchen; kept: Readonly<Record<string, unknown>> }) {
  const own = kitchen.ownLimits ?? {}
  const form = useForm(`own-limits-${kitchen.seq ?? 0}-${system.value}`, {
    arrivalMaxC: own.arrivalMaxC === undefined ? '' : temperature(own.arrivalMaxC),
    reworkMaxPct: editable(own.reworkMaxPct),
    reworkMaxDays: editable(own.reworkMaxDays),
  })
  const send = (): void => {
    const { seq } = kitchen
    if (seq === undefined)
      return refuse(form, [{ path: '', message: 'the entry of the kitchen is not known; reload the page' }])
    void submit(form, {
      read: (r) => {
        const why = r.text('why', { required: true })
        const { ownLimits: _, ...rest } = kept
        const ownLimits = compact({
          arrivalMaxC: r.quantity('arrivalMaxC', 'temperature', { allowNegative: true }),
          reworkMaxPct: r.quantity('reworkMaxPct', 'percent'),
          reworkMaxDays: r.number('reworkMaxDays'),
          // Set beside the charts of each recipe.
          byRecipe: own.byRecipe,
        })
        if (why === undefined) return undefined
        return {
          kind: 'kitchen.set',
          corrects: seq,
          why,
          body: { ...rest, ...(Object.keys(ownLimits).length > 0 ? { ownLimits } : {}) },
        }
      },
      clear: false,
      fieldFor: {
        'ownLimits.arrivalMaxC': 'arrivalMaxC',
        'ownLimits.reworkMaxPct': 'reworkMaxPct',
        'ownLimits.reworkMaxDays': 'reworkMaxDays',
      },
    })
  }
  return (
    <EntryForm
      form={form}
      fields={['arrivalMaxC', 'reworkMaxPct', 'reworkMaxDays', 'why']}
      label="Limits of this kitchen"
      action="Set the limits"
      quiet
      onSubmit={send}
    >
      <h2>Limits of this kitchen</h2>
      <p class="hint">
        Beside the law of each place, as advice, for lots and batches from the day they are set. An empty field sets
        none. Those of a recipe stand with its <a href="/record/charts">control charts</a>.
      </p>
      <FormQuantity form={form} name="arrivalMaxC" kind="temperature" label="Warmest chilled meat may come in" />
      <FormQuantity form={form} name="reworkMaxPct" kind="percent" label="Most rework in a batch" />
      <FormText form={form} name="reworkMaxDays" label="Oldest rework" numeric unit="days" />
      <FormText form={form} name="why" label="Why these" required />
    </EntryForm>
  )
}
