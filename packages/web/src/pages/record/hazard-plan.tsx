import type { HazardPlan, PlanChange } from '@forcemeat/rulebook/hazard/plan'
import { signal } from '@preact/signals'
import { useMemo } from 'preact/hooks'
import { useResource } from '../../state/resource.ts'
import type { RecipeListed } from '../../state/views.ts'
import { ChoiceField } from '../../ui/field.tsx'
import { inBothDegrees } from '../../ui/figures.ts'
import { Caution, Shown } from '../../ui/notes.tsx'
import { Sheet } from '../../ui/sheet.tsx'
import { Changes, Signed, SignPlan, type SignedView } from './sign-plan.tsx'
import { paper } from '../../ui/paper.ts'

type Found = {
  readonly recipe: string
  readonly version: number
  readonly plan: HazardPlan
  readonly against?: number
  readonly changes: readonly PlanChange[]
  readonly planHash: string
  readonly toComplete: readonly string[]
  readonly signed?: SignedView
  readonly sinceSigned?: readonly PlanChange[]
}

/** The draft hazard plan of a recipe, made from its process and the rulebook. */
export function HazardPlanPage() {
  const recipes = useResource<{ recipes: readonly RecipeListed[] }>('/api/recipes')
  const chosen = useMemo(() => signal(''), [])
  const list = recipes.value.value?.recipes ?? []
  const recipe = chosen.value || list[0]?.recipe
  const found = useResource<Found>(recipe ? `/api/hazard-plan/${encodeURIComponent(recipe)}` : undefined)
  return (
    <>
      <div class="head-line">
        <h1>Hazard plan</h1>
        {recipe && (
          <a class="button" href={paper(`hazard-plan/${encodeURIComponent(recipe)}`)} target="_blank" rel="noreferrer">
            Print the draft
          </a>
        )}
      </div>
      <Caution>
        A draft made from the recipe and the rulebook. A qualified person completes it for this kitchen, validates it
        and signs it; until then it is no plan. Local codes come first.
      </Caution>
      {list.length === 0 ? (
        <p class="empty">No recipe yet.</p>
      ) : (
        <ChoiceField
          label="Recipe"
          value={recipe ?? ''}
          options={list.map((r) => ({ value: r.recipe, label: r.body.name }))}
          onInput={(v) => (chosen.value = v)}
        />
      )}
      {recipe && (
        <Shown of={found.value} what="the plan">
          {(f) => (
            <>
              {f.signed && <Signed recipe={f.recipe} signed={f.signed} since={f.sinceSigned ?? []} />}
              <Plan found={f} />
              <SignPlan
                key={`${f.recipe} ${f.planHash}`}
                recipe={f.recipe}
                version={f.version}
                planHash={f.planHash}
                toComplete={f.toComplete}
                before={f.signed?.completed ?? []}
              />
            </>
          )}
        </Shown>
      )}
    </>
  )
}

function Plan({ found: { plan, changes, against, version } }: { found: Found }) {
  const all = plan.steps.flatMap((s) => s.hazards.map((h) => ({ ...h, name: s.name })))
  return (
    <>
      <p>
        Version {version}; rules in force on {plan.on} for {plan.jurisdictions.join(', ') || 'no place'}.
      </p>
      {changes.length > 0 && (
        <>
          <h2>What changed since version {against}</h2>
          <Changes caption="Changes of the plan" changes={changes} />
        </>
      )}
      <h2>Flow</h2>
      <ol>
        {plan.steps.map((s) => (
          <li key={s.step}>
            {s.name}
            {s.how && <span class="quiet">: {inBothDegrees(s.how)}</span>}
          </li>
        ))}
      </ol>
      <h2>Hazards by step</h2>
      <Sheet
        caption="Hazards by step"
        rows={all}
        rowKey={(h) => h.id}
        columns={[
          { head: 'Step', cell: (h) => h.name },
          { head: 'Hazard', names: true, cell: (h) => `${h.hazard} (${h.kind})` },
          { head: 'Control', cell: (h) => h.control },
          { head: 'Held by', cell: (h) => (h.critical ? <strong>critical point</strong> : 'good practice') },
        ]}
      />
      <h2>Critical points</h2>
      {all
        .filter((h) => h.critical)
        .map((h) => (
          <section key={h.id}>
            <h3>
              {h.name}: {h.hazard}
            </h3>
            {h.limits.length === 0 ? (
              <p class="late">No limit in the rulebook for these places: a qualified person sets one.</p>
            ) : (
              <ul>
                {h.limits.map((l) => (
                  <li key={l.rule + l.jurisdiction}>
                    <a href={`/rules/${encodeURIComponent(l.rule)}`}>{inBothDegrees(l.title)}</a> ({l.jurisdiction}):{' '}
                    {inBothDegrees(l.limit)}
                    {l.ifScope && <span class="quiet">; only for: {l.ifScope}</span>}
                    {l.unread && <span class="late"> from memory: confirm before use</span>}
                  </li>
                ))}
              </ul>
            )}
            <dl class="facts">
              <dt>Monitoring</dt>
              <dd>{h.monitoring}</dd>
              <dt>Corrective action</dt>
              <dd>{h.correction}</dd>
              <dt>Verification</dt>
              <dd>{h.verification}</dd>
              <dt>Record</dt>
              <dd>{h.record}</dd>
            </dl>
          </section>
        ))}
      <h2>Still open</h2>
      <ul>
        {plan.open.map((o) => (
          <li key={o}>{o}</li>
        ))}
      </ul>
    </>
  )
}
