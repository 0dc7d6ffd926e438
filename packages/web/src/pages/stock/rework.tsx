import { findMaterial } from '@forcemeat/craft/materials/materials'
import { go } from '../../router.ts'
import { submit, useForm } from '../../state/form.ts'
import { compact } from '../../state/reader.ts'
import { useResource } from '../../state/resource.ts'
import type { BatchRecord, BatchView } from '../../state/views.ts'
import { mass, today } from '../../ui/figures.ts'
import { EntryForm, faultAt, FormChoice, FormQuantity, FormText } from '../../ui/form.tsx'
import { MaterialField, materialTyped } from '../../ui/material-field.tsx'
import { Caution } from '../../ui/notes.tsx'

/** Every allergen of what was planned or weighed into a batch, and of rework that went into it before, whole or in parts. */
function allergensOf(b: BatchRecord): string[] {
  const own = b.lines.flatMap((l) => findMaterial(l.material)?.allergens ?? [])
  const before = [...b.lots, ...(b.ancestry?.lots ?? [])].flatMap((l) =>
    l.origin && 'batch' in l.origin ? (l.origin.allergens ?? []) : [],
  )
  return [...new Set([...own, ...before])].sort()
}

/** What of a batch goes back into the kitchen as a lot. */
export function TakeRework() {
  const form = useForm('rework', { on: today(), batch: new URLSearchParams(location.search).get('batch') ?? '' })
  const batches = useResource<{ batches: readonly BatchView[] }>('/api/batches?limit=100')
  const code = form.values.value['batch'] ?? ''
  const batch = useResource<BatchRecord>(code ? `/api/batches/${encodeURIComponent(code)}` : undefined).value.value
  const allergens = batch ? allergensOf(batch) : []
  const typed = form.values.value['material'] ?? ''
  const material = materialTyped(typed)
  const send = (): Promise<void> =>
    submit(form, {
      read: (r) => {
        if (!material) r.fault('material', 'is not in the table of materials; allowed: one that the search offers')
        if (!batch) r.fault('batch', 'is not chosen, or not read yet; allowed: a batch of the record')
        return {
          kind: 'lot.rework',
          body: {
            lot: r.text('lot', { required: true }),
            batch: code,
            material: material?.id,
            kg: r.quantity('kg', 'mass', { required: true }),
            on: r.text('on', { required: true }),
            allergens,
            ...compact({
              useBy: r.text('useBy'),
              fatPct: r.quantity('fatPct', 'percent'),
              place: r.text('place'),
              note: r.text('note'),
            }),
          },
        }
      },
      after: () => go('/stock'),
    })
  return (
    <>
      <h1>Take rework</h1>
      <Caution>
        Rework brings its batch along: its allergens, its age, its cure. Keep it cold and apart, use it first, and only
        in a product that has the same allergens. A recall of either batch finds the other.
      </Caution>
      <EntryForm
        form={form}
        fields={['batch', 'lot', 'material', 'kg', 'on', 'useBy', 'fatPct', 'place', 'note']}
        label="Take rework"
        action="Record it as a lot"
        onSubmit={() => void send()}
      >
        <div class="columns">
          <FormChoice
            form={form}
            name="batch"
            label="Out of batch"
            options={[
              { value: '', label: 'choose' },
              ...(batches.value.value?.batches ?? [])
                .filter((b) => b.state !== 'planned')
                .map((b) => ({ value: b.batch, label: `${b.batch}, ${b.recipeName}` })),
            ]}
          />
          <FormText form={form} name="lot" label="Code of the new lot" required />
          <MaterialField
            label="It counts as"
            value={typed}
            onInput={(v) => form.set('material', v)}
            fault={faultAt(form, 'material')}
          />
          <FormQuantity
            form={form}
            name="kg"
            kind="mass"
            label="Weight"
            required
            {...(batch?.massBalance ? { hint: `${mass(batch.massBalance.inKg)} were weighed into the batch.` } : {})}
          />
          <FormText form={form} name="on" type="date" label="Taken on" required />
          <FormText form={form} name="useBy" type="date" label="Use by" />
          <FormQuantity form={form} name="fatPct" kind="percent" label="Fat, where it is known" />
          <FormText form={form} name="place" label="Where it is kept" />
        </div>
        {batch && (
          <p>
            Allergens that go with it: <strong>{allergens.length > 0 ? allergens.join(', ') : 'none'}</strong>
          </p>
        )}
        <FormText form={form} name="note" label="Note" />
      </EntryForm>
    </>
  )
}
