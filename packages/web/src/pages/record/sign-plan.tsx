import type { PlanChange } from '@forcemeat/rulebook/hazard/plan'
import { post, Refused } from '../../api.ts'
import { refuse, useForm } from '../../state/form.ts'
import { recordVersion } from '../../state/live.ts'
import { mayAdd } from '../../state/session.ts'
import { who } from '../../state/who.ts'
import { day } from '../../ui/figures.ts'
import { EntryForm, FormText } from '../../ui/form.tsx'
import { Caution } from '../../ui/notes.tsx'
import { Sheet } from '../../ui/sheet.tsx'
import { paper } from '../../ui/paper.ts'

type Completed = readonly { readonly item: string; readonly said: string }[]
export type SignedView = {
  readonly seq: number
  readonly version: number
  readonly name: string
  readonly qualification: string
  readonly on: string
  readonly file: string
  readonly completed: Completed
}

export function Changes({ caption, changes }: { caption: string; changes: readonly PlanChange[] }) {
  return (
    <Sheet
      caption={caption}
      rows={changes}
      rowKey={(c) => `${c.step} ${c.what} ${c.was ?? ''} ${c.is ?? ''}`}
      columns={[
        { head: 'Step', names: true, cell: (c) => c.step },
        { head: 'What', cell: (c) => c.what },
        { head: 'Was', cell: (c) => c.was ?? '–' },
        { head: 'Is', cell: (c) => c.is ?? '–' },
      ]}
    />
  )
}

/** The copy somebody signed, and what is other now. */
export function Signed({
  recipe,
  signed: s,
  since,
}: {
  recipe: string
  signed: SignedView
  since: readonly PlanChange[]
}) {
  return (
    <section aria-labelledby="signed">
      <h2 id="signed">Signed copy</h2>
      <p>
        Version {s.version}, signed on {day(s.on)} by {s.name} ({s.qualification}),{' '}
        <a href={`/record/${s.seq}`}>entry {s.seq}</a>.{' '}
        <a
          class="button"
          href={paper(`hazard-plan/${encodeURIComponent(recipe)}`, { signed: String(s.seq) })}
          target="_blank"
          rel="noreferrer"
        >
          Print the signed copy
        </a>
      </p>
      {since.length === 0 ? (
        <p>The plan is still as it was signed.</p>
      ) : (
        <>
          <Caution>
            The plan has changed since it was signed. A qualified person looks at what changed, and signs again.
          </Caution>
          <Changes caption="Changes since the signed copy" changes={since} />
        </>
      )}
    </section>
  )
}

type Props = {
  readonly recipe: string
  readonly version: number
  readonly planHash: string
  readonly toComplete: readonly string[]
  /** What was said the last time: a place to start from, to be read again. */
  readonly before: Completed
}

/** Complete what the draft leaves open, and sign. */
export function SignPlan({ recipe, version, planHash, toComplete, before }: Props) {
  const said = new Map(before.map((c) => [c.item, c.said]))
  const form = useForm(
    `sign-plan-${recipe}-${planHash}`,
    Object.fromEntries(toComplete.map((item, i) => [`said${i}`, said.get(item) ?? ''])),
  )
  if (!mayAdd('hazard.sign')) return null
  const send = async (): Promise<void> => {
    const v = form.values.value
    const text = (name: string): string => (v[name] ?? '').trim()
    const empty = ['name', 'qualification', ...toComplete.map((_, i) => `said${i}`)].filter((n) => text(n) === '')
    if (empty.length > 0)
      return refuse(
        form,
        empty.map((path) => ({ path, message: 'is empty: fill it in' })),
      )
    form.sending.value = true
    try {
      await post(`/api/hazard-plan/${encodeURIComponent(recipe)}/sign`, {
        version,
        planHash,
        name: text('name'),
        qualification: text('qualification'),
        completed: toComplete.map((item, i) => ({ item, said: text(`said${i}`) })),
        by: who.value,
        key: form.key.value,
      })
      form.clear()
      form.done.value = 'Signed.'
      recordVersion.value += 1
    } catch (error) {
      if (!(error instanceof Refused)) throw error
      const named = (path: string): string => path.replace(/^completed\[(\d+)\]\.said$/, 'said$1')
      refuse(
        form,
        error.faults.map((f) => ({ ...f, path: named(f.path) })),
      )
    } finally {
      form.sending.value = false
    }
  }
  return (
    <>
      <h2>Complete and sign</h2>
      <EntryForm
        form={form}
        fields={[...toComplete.map((_, i) => `said${i}`), 'name', 'qualification', 'by', 'planHash', 'version']}
        label="Complete and sign the plan"
        action="Sign this plan"
        onSubmit={() => void send()}
      >
        <p class="hint">
          Only somebody trained in hazard plans signs. The plan as it stands is kept whole, by its hash, with what is
          said here.
        </p>
        {toComplete.map((item, i) => (
          <FormText key={item} form={form} name={`said${i}`} label={item} required />
        ))}
        <div class="columns">
          <FormText form={form} name="name" label="Name of who signs" required />
          <FormText
            form={form}
            name="qualification"
            label="Qualified by"
            required
            hint="Training or experience: what, where, when."
          />
        </div>
      </EntryForm>
    </>
  )
}
