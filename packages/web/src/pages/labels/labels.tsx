import './labels.css'
import type { PageProps } from '../../app.tsx'
import { address, go } from '../../router.ts'
import { useForm, refuse } from '../../state/form.ts'
import { useResource } from '../../state/resource.ts'
import type { RecipeListed } from '../../state/views.ts'
import { day } from '../../ui/figures.ts'
import { FormChoice, FormText } from '../../ui/form.tsx'
import { Empty, Shown } from '../../ui/notes.tsx'
import { Sheet } from '../../ui/sheet.tsx'
import { placeName } from '../../ui/words.ts'
import { personName } from '../record/about.ts'
import type { ApprovalView } from './label-views.ts'
import { OneLabel } from './one-label.tsx'

const places = ['US', 'EU', 'GB', 'CA', 'AU-NZ'] as const

/** Labels approved, and the way to a new one. */
export function Labels({ path, kitchen }: PageProps) {
  const approvals = useResource<{ approvals: readonly ApprovalView[] }>('/api/labels')
  const [code] = path
  const query = address.value.query
  const place = query.get('place') ?? 'EU'
  if (code)
    return (
      <Shown of={approvals.value} what="the labels">
        {({ approvals: all }) => {
          const before = all.find((a) => a.label === code && a.place === place)
          const batch = query.get('batch') ?? (query.get('recipe') ? undefined : before?.batch)
          return (
            <OneLabel
              key={`${code} ${place} ${batch ?? query.get('recipe') ?? ''}`}
              label={code}
              place={place}
              batch={batch}
              recipe={query.get('recipe') ?? before?.recipe}
              before={before}
              kitchen={kitchen}
            />
          )
        }}
      </Shown>
    )
  return (
    <>
      <h1>Labels</h1>
      <NewLabel />
      <h2>Approved</h2>
      <Shown of={approvals.value} what="the labels">
        {({ approvals: all }) =>
          all.length === 0 ? (
            <Empty>No label has been approved yet.</Empty>
          ) : (
            <Sheet
              caption="Approvals, the newest first"
              rows={all}
              rowKey={(a) => String(a.seq)}
              columns={[
                {
                  head: 'Label',
                  names: true,
                  cell: (a) => <a href={`/labels/${encodeURIComponent(a.label)}?place=${a.place}`}>{a.label}</a>,
                },
                { head: 'Place', cell: (a) => placeName(a.place) },
                { head: 'Of', cell: (a) => a.batch ?? `${a.recipe}, version ${a.version}` },
                { head: 'Approved', keep: true, cell: (a) => `${day(a.at)} by ${personName(kitchen, a.by)}` },
                { head: 'Entry', cell: (a) => <a href={`/record/${a.seq}`}>{a.seq}</a> },
              ]}
            />
          )
        }
      </Shown>
    </>
  )
}

function NewLabel() {
  const form = useForm('label-new', { place: 'EU' })
  const recipes = useResource<{ recipes: readonly RecipeListed[] }>('/api/recipes')
  const batches = useResource<{ batches: readonly { batch: string; recipeName: string }[] }>('/api/batches?limit=200')
  const start = (): void => {
    const { label = '', of = '', place = 'EU' } = form.values.value
    if (!/^[A-Za-z0-9][\w.-]*$/.test(label.trim()))
      return refuse(form, [{ path: 'label', message: 'is no code; allowed: letters, digits, dot, dash' }])
    if (of === '') return refuse(form, [{ path: 'of', message: 'is empty; allowed: a batch or a recipe' }])
    const [what, ...code] = of.split(':')
    go(`/labels/${encodeURIComponent(label.trim())}?place=${place}&${what}=${encodeURIComponent(code.join(':'))}`)
  }
  return (
    <form
      noValidate
      aria-label="Start a label"
      onSubmit={(e) => {
        e.preventDefault()
        start()
      }}
    >
      <FormText form={form} name="label" label="Label code" />
      <FormChoice
        form={form}
        name="of"
        label="Of"
        options={[
          { value: '', label: 'choose' },
          ...(batches.value.value?.batches ?? []).map((b) => ({
            value: `batch:${b.batch}`,
            label: `batch ${b.batch}, ${b.recipeName}`,
          })),
          ...(recipes.value.value?.recipes ?? []).map((r) => ({
            value: `recipe:${r.recipe}`,
            label: `recipe ${r.body.name}, version ${r.version}`,
          })),
        ]}
      />
      <FormChoice
        form={form}
        name="place"
        label="Sold in"
        options={places.map((p) => ({ value: p, label: placeName(p) }))}
      />
      <p class="actions">
        <button type="submit" class="main">
          Lay out the label
        </button>
      </p>
    </form>
  )
}
