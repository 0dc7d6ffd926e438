import { signal } from '@preact/signals'
import { useMemo } from 'preact/hooks'
import { jurisdictions } from '@forcemeat/craft/recipe/schema'
import type { PageProps } from '../../app.tsx'
import { useResource } from '../../state/resource.ts'
import { ChoiceField, TextField } from '../../ui/field.tsx'
import { Shown } from '../../ui/notes.tsx'
import { placeName, spoken } from '../../ui/words.ts'
import { LongList } from '../../ui/long-list.tsx'
import { OneRule } from './one-rule.tsx'
import type { RuleView } from './rule-view.ts'

/** Every rule the program knows, found by place, topic and words. */
export function Rules({ path }: PageProps) {
  const [id] = path
  return id ? <OneRule key={id} id={id} /> : <AllRules />
}

const topics = [
  'cure',
  'composition',
  'additive',
  'lethality',
  'cooling',
  'fermentation',
  'pork',
  'stability',
  'label',
  'net-weight',
  'process',
]

function AllRules() {
  const q = useMemo(() => signal(''), [])
  const jurisdiction = useMemo(() => signal(''), [])
  const topic = useMemo(() => signal(''), [])
  const query = new URLSearchParams()
  if (q.value.trim()) query.set('q', q.value.trim())
  if (jurisdiction.value) query.set('jurisdiction', jurisdiction.value)
  if (topic.value) query.set('topic', topic.value)
  const rules = useResource<{ rules: readonly RuleView[] }>(`/api/rules?${query.toString()}`)
  const none = { value: '', label: 'all' }
  return (
    <>
      <h1>Rules</h1>
      <div class="row">
        <TextField type="search" label="Find in the rules" value={q.value} onInput={(v) => (q.value = v)} />
        <ChoiceField
          label="Place"
          value={jurisdiction.value}
          options={[none, ...jurisdictions.map((j) => ({ value: j as string, label: placeName(j) }))]}
          onInput={(v) => (jurisdiction.value = v)}
        />
        <ChoiceField
          label="Topic"
          value={topic.value}
          options={[none, ...topics.map((t) => ({ value: t, label: spoken(t) }))]}
          onInput={(v) => (topic.value = v)}
        />
      </div>
      <Shown of={rules.value} what="the rules">
        {({ rules: found }) => (
          <>
            <p class="quiet" role="status">
              {found.length} {found.length === 1 ? 'rule' : 'rules'}
            </p>
            <LongList
              items={found}
              what="rules"
              filterable={false}
              text={(r) => `${r.id} ${r.title} ${r.scope}`}
              empty="No rule is like that. Look with fewer words, or in all places."
            >
              {(shown) => (
                <ul class="entries">
                  {shown.map((r) => (
                    <li key={r.id}>
                      <a class="lead" href={`/rules/${encodeURIComponent(r.id)}`}>
                        {r.title}
                      </a>{' '}
                      <span class="where">
                        {placeName(r.jurisdiction)} · {spoken(r.topic)}
                        {r.weight === 'advice' ? ' · advice' : ''}
                      </span>
                      <p class="quiet">{r.scope}</p>
                    </li>
                  ))}
                </ul>
              )}
            </LongList>
          </>
        )}
      </Shown>
    </>
  )
}
