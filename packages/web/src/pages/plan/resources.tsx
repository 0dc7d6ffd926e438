import { convert } from '@forcemeat/craft/quantity/units'
import { submit, useForm, type FactDraft, type Values } from '../../state/form.ts'
import { compact } from '../../state/reader.ts'
import { rowName, rowsOf } from '../../state/recipe-draft.ts'
import { system } from '../../state/who.ts'
import { useResource } from '../../state/resource.ts'
import { EntryForm, FormChoice, FormText, inScreenUnit } from '../../ui/form.tsx'
import { columnUnit, editable, measured, number } from '../../ui/figures.ts'
import { LongList } from '../../ui/long-list.tsx'
import { Shown } from '../../ui/notes.tsx'
import { Sheet } from '../../ui/sheet.tsx'
import type { ResourceView } from './plan-views.ts'
import { useRecipes } from './recipe-names.ts'

const kinds = [
  { value: 'all', label: 'everything' },
  { value: 'fresh', label: 'what is fresh' },
  { value: 'cooked', label: 'what is cooked' },
  { value: 'fermented', label: 'what is fermented' },
  { value: 'dried', label: 'what is dried' },
] as const
const kindWords = new Map<string, string>(kinds.map((k) => [k.value, k.label]))
const at = (i: number, f: string): string => rowName('takes', i, f)

/** What a day's work takes room of: mixer, smokehouse, hands. */
export function Resources() {
  const all = useResource<{ resources: readonly ResourceView[] }>('/api/resources')
  const { nameOf } = useRecipes()
  return (
    <>
      <h1>Resources</h1>
      <p>
        What there is only so much of on a day: the mixer's kilograms, the smokehouse's, hours of hands. The plan never
        takes more. Drying rooms are not here: they have their own page, and the plan takes them at what they hold.
      </p>
      <Shown of={all.value} what="the resources">
        {({ resources }) => (
          <LongList
            items={resources}
            what="resources"
            text={(r) => `${r.resource} ${r.name}`}
            empty="None yet. Without one, the plan makes everything on the last day it can."
          >
            {(shown) => (
              <>
                <Sheet
                  caption="Resources"
                  rows={shown}
                  rowKey={(r) => r.resource}
                  columns={[
                    { head: 'Name', names: true, cell: (r) => r.name },
                    {
                      head: 'A day',
                      num: true,
                      cell: (r) => (r.retired ? 'out of use' : measured(r.perDay, r.unit)),
                    },
                    {
                      head: `Taken by a ${heavy()} of mix`,
                      cell: (r) =>
                        r.takes.map((t) => (
                          <p key={`${t.of} ${t.recipe ?? ''}`}>
                            {t.recipe ? nameOf(t.recipe) : kindWords.get(t.of)}: {takenBy(t.perKg, r.unit)}
                            {t.fromDay || t.forDays
                              ? `, from day ${t.fromDay ?? 0} on ${t.forDays ?? 1} ${(t.forDays ?? 1) === 1 ? 'day' : 'days'}`
                              : ''}
                          </p>
                        )),
                    },
                  ]}
                />
                {shown.map((r) => (
                  <details key={r.seq}>
                    <summary>Correct {r.name}</summary>
                    <ResourceForm resource={r} />
                  </details>
                ))}
              </>
            )}
          </LongList>
        )}
      </Shown>
      <h2>Add a resource</h2>
      <ResourceForm />
    </>
  )
}

const heavy = (): string => (system.value === 'us' ? 'pound' : 'kilogram')
/** What a unit of the mix's weight takes: a weight of a weight is the same share in any units. */
const takenBy = (perKg: number, unit: string): string =>
  system.value === 'us' && unit !== 'kg'
    ? `${number(convert(perKg, 'mass', 'lb', 'kg'))} ${unit}`
    : `${number(perKg)} ${columnUnit(unit)}`

const valuesOf = (r: ResourceView): Values => ({
  resource: r.resource,
  name: r.name,
  perDay: editable(r.perDay),
  unit: r.unit,
  retired: r.retired ? 'yes' : '',
  why: '',
  'takes.rows': String(r.takes.length),
  ...Object.fromEntries(
    r.takes.flatMap((t, i) => [
      [at(i, 'of'), t.recipe ? `recipe:${t.recipe}` : t.of],
      [at(i, 'perKg'), editable(t.perKg)],
      [at(i, 'fromDay'), editable(t.fromDay)],
      [at(i, 'forDays'), editable(t.forDays)],
    ]),
  ),
})

function ResourceForm({ resource }: { resource?: ResourceView }) {
  const fresh = { unit: 'kg', 'takes.rows': '1', [at(0, 'of')]: 'all', [at(0, 'perKg')]: '1' }
  const form = useForm(
    resource ? `resource-${resource.resource}-${resource.seq}` : 'resource',
    resource ? valuesOf(resource) : fresh,
  )
  const { options } = useRecipes()
  const rows = rowsOf(form.values.value, 'takes')
  const retired = form.values.value['retired'] === 'yes'
  const whose = [...kinds, ...options.map((o) => ({ value: `recipe:${o.value}`, label: o.label }))]
  const send = (): Promise<void> =>
    submit(form, {
      read: (r, v): FactDraft => ({
        kind: 'plan.resource',
        body: {
          resource: r.text('resource', { required: true }),
          name: r.text('name', { required: true }),
          perDay: r.number('perDay', { required: true }),
          unit: r.text('unit', { required: true }),
          takes: Array.from({ length: rows }, (_, i) => {
            const of = v[at(i, 'of')] || 'all'
            return {
              ...(of.startsWith('recipe:') ? { of: 'recipe', recipe: of.slice('recipe:'.length) } : { of }),
              perKg: r.number(at(i, 'perKg'), { required: true }),
              ...compact({ fromDay: r.number(at(i, 'fromDay')), forDays: r.number(at(i, 'forDays')) }),
            }
          }),
          ...(retired ? { retired: true } : {}),
        },
        ...(resource ? { corrects: resource.seq, why: r.text('why', { required: true }) ?? '' } : {}),
      }),
      clear: resource ? false : fresh,
    })
  const label = resource ? `Correct ${resource.name}` : 'Add a resource'
  return (
    <EntryForm
      form={form}
      fields={[
        'resource',
        'name',
        'perDay',
        'unit',
        'why',
        ...Array.from({ length: rows }, (_, i) => ['of', 'perKg', 'fromDay', 'forDays'].map((f) => at(i, f))).flat(),
      ]}
      label={label}
      action={resource ? label : 'Add the resource'}
      onSubmit={() => void send()}
      quiet={!!resource}
    >
      <div class="columns">
        <FormText form={form} name="name" label="Name" required />
        {!resource && <FormText form={form} name="resource" label="Code" required />}
        <FormText
          form={form}
          name="perDay"
          label="How much a day"
          numeric
          unit={form.values.value['unit'] ?? ''}
          required
          hint={
            form.values.value['unit']?.trim() === 'kg'
              ? inScreenUnit(`${form.values.value['perDay'] ?? ''} kg`, 'mass')
              : undefined
          }
        />
        <FormText form={form} name="unit" label="In" required hint="kg, hours, trolleys" />
      </div>
      {Array.from({ length: rows }, (_, i) => (
        <div class="row top" key={i}>
          <FormChoice form={form} name={at(i, 'of')} label={`Taken by ${i + 1}`} options={whose} />
          <FormText
            form={form}
            name={at(i, 'perKg')}
            label={`A kg of mix takes ${i + 1}`}
            numeric
            unit={form.values.value['unit'] ?? ''}
            required
          />
          <FormText
            form={form}
            name={at(i, 'fromDay')}
            label={`From day ${i + 1}`}
            numeric
            hint="0: the day it is begun"
          />
          <FormText
            form={form}
            name={at(i, 'forDays')}
            label={`On days ${i + 1}`}
            numeric
            hint="1 where none is said"
          />
        </div>
      ))}
      <p class="actions">
        <button type="button" disabled={rows >= 60} onClick={() => form.set('takes.rows', String(rows + 1))}>
          Add a line
        </button>
        {rows > 1 && (
          <button type="button" class="plain" onClick={() => form.set('takes.rows', String(rows - 1))}>
            Take the last line away
          </button>
        )}
      </p>
      {resource && (
        <>
          <label class="tick">
            <input
              type="checkbox"
              checked={retired}
              onInput={(e) => form.set('retired', e.currentTarget.checked ? 'yes' : '')}
            />
            Out of use
          </label>
          <FormText form={form} name="why" label="Why it is corrected" required />
        </>
      )}
    </EntryForm>
  )
}
