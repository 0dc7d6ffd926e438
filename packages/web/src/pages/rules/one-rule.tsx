import { useResource } from '../../state/resource.ts'
import { Citation } from '../../ui/citation.tsx'
import { day, number } from '../../ui/figures.ts'
import { factPhrase } from '../../ui/fact-phrases.ts'
import { Shown } from '../../ui/notes.tsx'
import { placeName, spoken } from '../../ui/words.ts'
import type { DatedView, RuleView } from './rule-view.ts'
import { HoldRows, holdTableOf } from './hold-rows.tsx'

const limitOf = (v: DatedView, unit: string): string => {
  const parts = [
    v.min !== undefined && `at least ${number(v.min, 6)} ${unit}`,
    v.max !== undefined && `at most ${number(v.max, 6)} ${unit}`,
  ]
  return parts.filter(Boolean).join(', ') || 'see the table or the document'
}

const span = (v: DatedView): string => {
  if (v.from && v.until) return `from ${day(v.from)} until ${day(v.until)}`
  if (v.from) return `from ${day(v.from)}`
  return v.until ? `until ${day(v.until)}` : 'no date of start known'
}

/** One rule: what it covers, every dated value with its source, and how each was read. */
export function OneRule({ id }: { id: string }) {
  const rule = useResource<RuleView | { rule: RuleView }>(`/api/rules/${encodeURIComponent(id)}`)
  return (
    <>
      <p>
        <a href="/rules">All rules</a>
      </p>
      <Shown of={rule.value} what="the rule">
        {(answer) => <Told rule={'rule' in answer ? answer.rule : answer} />}
      </Shown>
    </>
  )
}

function Told({ rule }: { rule: RuleView }) {
  const table = holdTableOf(rule.id)
  return (
    <>
      <h1>{rule.title}</h1>
      <dl class="facts">
        <dt>Where</dt>
        <dd>{placeName(rule.jurisdiction)}</dd>
        <dt>Topic</dt>
        <dd>{spoken(rule.topic)}</dd>
        <dt>Covers</dt>
        <dd>{rule.scope}</dd>
        {rule.when && (
          <>
            <dt>Holds where</dt>
            <dd>
              {Object.entries(rule.when)
                .map(([fact, allowed]) => factPhrase(fact, allowed))
                .join('; ')}
            </dd>
          </>
        )}
        {rule.measure && (
          <>
            <dt>Limits</dt>
            <dd>
              {spoken(rule.measure)}
              {rule.basis && `, ${rule.basis}`}
            </dd>
          </>
        )}
        <dt>A breach</dt>
        <dd>
          {rule.weight === 'limit' ? 'stops a release' : 'is shown as advice, and may be overruled with a reason'}
        </dd>
        <dt>Id</dt>
        <dd>
          <code>{rule.id}</code>
        </dd>
      </dl>
      <h2>Values and their dates</h2>
      <ul class="entries">
        {rule.values.map((v, i) => (
          <li key={i}>
            <strong>{limitOf(v, rule.unit)}</strong> <span class="where">{span(v)}</span>
            {v.source && (
              <p>
                <Citation source={v.source} jurisdiction={rule.jurisdiction} />
              </p>
            )}
          </li>
        ))}
      </ul>
      {table && <HoldRows table={table} />}
      {rule.note && !table && (
        <>
          <h2>Note</h2>
          <p>{rule.note}</p>
        </>
      )}
    </>
  )
}
