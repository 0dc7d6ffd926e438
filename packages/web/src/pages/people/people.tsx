import type { PageProps } from '../../app.tsx'
import { refuse, submit, useForm } from '../../state/form.ts'
import { keptOf } from '../../state/kitchen-kept.ts'
import { useResource } from '../../state/resource.ts'
import { mayManage, readSession, session } from '../../state/session.ts'
import type { KitchenView, Person } from '../../state/views.ts'
import { EntryForm, FormChoice, FormText } from '../../ui/form.tsx'
import { Shown } from '../../ui/notes.tsx'
import { Sheet } from '../../ui/sheet.tsx'
import { Backups } from './backups.tsx'
import { KitchenClock } from './kitchen-clock.tsx'
import { OwnLimits } from './own-limits.tsx'
import { SecretForm } from './secret-form.tsx'

const roles = [
  { value: 'maker', label: 'maker: works at the bench' },
  { value: 'checker', label: 'checker: checks, decides, closes' },
  { value: 'owner', label: 'owner: all of it' },
  { value: 'reader', label: 'reader: reads only' },
]

export type Secreted = Person & { readonly passphrase: boolean; readonly pin: boolean }

/** Who works here, in which role, and how each signs in. */
export function People({ kitchen }: PageProps) {
  const all = useResource<{ mode: string; people: readonly Secreted[] }>('/api/people')
  return (
    <>
      <h1>People</h1>
      <p>
        {session.value.mode === 'people'
          ? 'Everybody signs in as themselves; every entry says who. An owner may do all, a maker works the bench, a checker checks and decides, a reader reads.'
          : 'Nobody signs in as themselves yet: whoever is chosen at the top is named in each entry. Once an owner has a passphrase, everybody signs in as themselves.'}
      </p>
      <Shown of={all.value} what="the people">
        {({ people }) => (
          <>
            <Sheet
              caption="People"
              rows={people}
              rowKey={(p) => p.person}
              columns={[
                { head: 'Name', names: true, cell: (p) => p.name },
                { head: 'Code', keep: true, cell: (p) => p.person },
                { head: 'Role', cell: (p) => (p.left ? 'works here no more' : p.role) },
                { head: 'Passphrase', cell: (p) => (p.passphrase ? 'set' : 'none') },
                { head: 'PIN', cell: (p) => (p.pin ? 'set' : 'none') },
                {
                  head: 'All on them',
                  cell: (p) => (
                    <a href={`/api/people/${encodeURIComponent(p.person)}/export`} download>
                      export<span class="visually-hidden"> of {p.name}</span>
                    </a>
                  ),
                },
              ]}
            />
            <div class="two even">
              <SecretForm people={people} done={readSession} />
              {mayManage.value && <AddPerson />}
            </div>
            {mayManage.value && kitchen.kitchen && (
              <div class="two even">
                <Second kitchen={kitchen.kitchen} />
                <OwnLimits kitchen={kitchen.kitchen} kept={keptOf(kitchen.kitchen)} />
                <KitchenClock kitchen={kitchen.kitchen} />
              </div>
            )}
            <Backups />
          </>
        )}
      </Shown>
    </>
  )
}

function AddPerson() {
  const form = useForm('person', { role: 'maker' })
  const send = (): Promise<void> =>
    submit(form, {
      read: (r, v) => ({
        kind: 'person.add',
        body: {
          person: r.text('person', { required: true }),
          name: r.text('name', { required: true }),
          role: v['role'],
        },
      }),
    })
  return (
    <EntryForm
      form={form}
      fields={['person', 'name', 'role']}
      label="Add a person"
      action="Add the person"
      quiet
      onSubmit={() => void send()}
    >
      <h2>Add a person</h2>
      <FormText form={form} name="name" label="Name" required />
      <FormText form={form} name="person" label="Code" required hint="Short, as it stands in each entry." />
      <FormChoice form={form} name="role" label="Role" options={roles} />
    </EntryForm>
  )
}

/** Whether a batch is released only by somebody who did not make it. */
function Second({ kitchen }: { kitchen: NonNullable<KitchenView['kitchen']> }) {
  const form = useForm('second', {})
  const on = kitchen.secondPerson === true
  const { seq } = kitchen
  const send = (): void => {
    if (seq === undefined)
      return refuse(form, [{ path: '', message: 'the entry of the kitchen is not known; reload the page' }])
    void submit(form, {
      read: () => ({
        kind: 'kitchen.set',
        corrects: seq,
        why: on ? 'one person may make and release' : 'a second person releases',
        body: { ...keptOf(kitchen), secondPerson: !on },
      }),
    })
  }
  return (
    <EntryForm
      form={form}
      fields={[]}
      label="Second person on release"
      action={on ? 'Let one person do both' : 'Ask for a second person'}
      quiet
      onSubmit={send}
    >
      <h2>Release</h2>
      <p>
        {on
          ? 'A batch is released only by somebody who weighed, measured and logged nothing of it.'
          : 'Whoever made a batch may also release it.'}
      </p>
    </EntryForm>
  )
}
