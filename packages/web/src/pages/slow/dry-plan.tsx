import { useEffect, useMemo, useRef } from 'preact/hooks'
import { address, go } from '../../router.ts'
import { useForm, type Form } from '../../state/form.ts'
import { useResource } from '../../state/resource.ts'
import type { RecipeListed } from '../../state/views.ts'
import { ChoiceField } from '../../ui/field.tsx'
import { FormQuantity, FormText } from '../../ui/form.tsx'
import { Working } from '../../ui/working.tsx'
import { CrustRisk } from './crust.tsx'
import { HowChecked } from './dry.tsx'
import { decidingWords } from './deciding.ts'
import { DryPlots, RoomPlot, type DryDrawn } from './dry-plots.tsx'
import { ReadyDate } from './dry-ready.tsx'
import { inDegrees } from './lines.ts'
import { blankDrying, changeStages, planned, recipeTexts, stageCount, stageField } from './dry-plan-form.ts'
import { useCourse } from './use-course.ts'

const known = /^(piece|target|begin|stages\[)/

function Stages({ form }: { form: Form }) {
  const rows = stageCount(form.values.value)
  return (
    <>
      <h2>Stages, from day 0</h2>
      {Array.from({ length: rows }, (_, i) => {
        const of = `stage ${i + 1}`
        return (
          <fieldset class="stage" key={i}>
            <legend>Stage {i + 1}</legend>
            <div class="stage-row">
              <FormText form={form} name={stageField(i, 'days')} label="Days" of={of} numeric unit="d" />
              <FormQuantity
                form={form}
                name={stageField(i, 'tempC')}
                kind="temperature"
                label="Air"
                of={of}
                allowNegative
              />
              <FormText form={form} name={stageField(i, 'rhPct')} label="Humidity" of={of} numeric unit="%" />
              <FormText
                form={form}
                name={stageField(i, 'airSpeedMPerS')}
                label="Air speed"
                of={of}
                numeric
                unit="m/s"
                hint="Empty: 0.2."
              />
              <button type="button" disabled={rows >= 20} onClick={() => changeStages(form, i, 'add')}>
                One after<span class="visually-hidden"> {of}</span>
              </button>
              <button type="button" disabled={rows <= 1} onClick={() => changeStages(form, i, 'remove')}>
                Remove<span class="visually-hidden"> {of}</span>
              </button>
            </div>
          </fieldset>
        )
      })}
    </>
  )
}

/** A drying not yet begun: the piece, its air and its targets on one side, its course on the other, live. */
export function PlanDrying() {
  const recipe = address.value.query.get('recipe') ?? ''
  const recipes = useResource<{ recipes: readonly RecipeListed[] }>('/api/recipes').value.value?.recipes
  const dried = useMemo(
    () => (recipes ?? []).filter((r) => r.body.kind === 'fermented' || r.body.kind === 'dried'),
    [recipes],
  )
  const form = useForm('dry-plan', blankDrying())
  const values = form.values.value
  const filled = useRef('')
  useEffect(() => {
    // A recipe named in the address fills the fields once; what is typed after that stands.
    const found = dried.find((r) => r.recipe === recipe)
    if (!found || filled.current === recipe || values['of'] === recipe) return
    filled.current = recipe
    form.replace({ ...form.values.value, ...recipeTexts(found.body).values, of: recipe })
  }, [recipe, dried])
  const { drying, faults, start } = useMemo(() => planned(values), [values])
  const last = useRef(drying)
  if (drying) last.current = drying
  const { result, busy, faults: refused } = useCourse(drying ?? last.current, undefined)
  useEffect(() => {
    form.faults.value = [...faults, ...refused.value]
  }, [faults, refused.value])
  const name = dried.find((r) => r.recipe === recipe)?.body.name
  const title = name ?? 'a planned drying'
  const told = useMemo(() => {
    const found = dried.find((r) => r.recipe === recipe)
    return found ? recipeTexts(found.body).notes : []
  }, [recipe, dried])
  const found = result.value
  const drawn = useMemo(
    (): DryDrawn | undefined =>
      found && {
        title,
        start,
        course: found.course,
        target: (drying ?? last.current)?.target ?? {},
        losses: [],
        aws: [],
      },
    [found, title, start],
  )
  const rest = form.faults.value.filter((f) => !known.test(f.path))
  return (
    <>
      <div class="head-line">
        <h1>Plan a drying{name ? `, ${name}` : ''}</h1>
        <span role="status" class="quiet" data-ms={found ? Math.round(found.ms) : ''}>
          {busy.value
            ? 'Reckoning…'
            : faults.length > 0
              ? 'A field cannot be read; the plot shows the plan before.'
              : ''}
        </span>
      </div>
      <HowChecked />
      <div class="two cook">
        <div>
          <ChoiceField
            label="Recipe"
            value={recipe}
            options={[
              { value: '', label: 'none, as typed' },
              ...dried.map((r) => ({ value: r.recipe, label: r.body.name })),
            ]}
            onInput={(code) =>
              go(code ? `/curves/dry/plan?recipe=${encodeURIComponent(code)}` : '/curves/dry/plan', { replace: true })
            }
          />
          <div class="stage-row">
            <FormQuantity form={form} name="piece.diameter" kind="length" unit="mm" label="Diameter at the start" />
            <FormText form={form} name="begin" label="Day 0" type="date" hint="Empty: today." />
          </div>
          <div class="stage-row">
            <FormText form={form} name="piece.water" label="Water" numeric unit="%" />
            <FormText form={form} name="piece.protein" label="Protein" numeric unit="%" />
            <FormText form={form} name="piece.fat" label="Fat" numeric unit="%" />
            <FormText form={form} name="piece.salt" label="Salt" numeric unit="%" />
          </div>
          <div class="stage-row">
            <FormText form={form} name="target.loss" label="Loss to reach" numeric unit="%" />
            <FormText form={form} name="target.aw" label="Water activity to reach" numeric hint="Empty: not asked." />
            <FormText form={form} name="target.mpr" label="Moisture to protein" numeric hint="Empty: not asked." />
          </div>
          <Stages form={form} />
          {told.length > 0 && (
            <>
              <h2>Taken from the recipe</h2>
              <ul>
                {told.map((n) => (
                  <li key={n}>{inDegrees(n)}</li>
                ))}
              </ul>
            </>
          )}
          {rest.length > 0 && (
            <div class="faults" role="alert">
              {rest.map((f) => (
                <p key={f.path + f.message}>
                  {f.path} {f.message}
                </p>
              ))}
            </div>
          )}
        </div>
        <div>
          {found && drawn ? (
            <>
              <ReadyDate
                start={start}
                ready={found.course.readyDay}
                fitted={false}
                waits={decidingWords(found.course, drawn.target)}
              />
              <DryPlots drawn={drawn} />
              <CrustRisk risk={found.course.crustRisk} fromDay={0} start={start} />
              <RoomPlot title={title} log={[]} stages={found.stages} />
              <section>
                <h2>What the course rests on</h2>
                <ul>
                  {found.course.warnings.map((w) => (
                    <li key={w}>{w}</li>
                  ))}
                </ul>
                <Working figure="How the course is reckoned" steps={found.course.working} />
              </section>
            </>
          ) : (
            <p role="status">Reckoning the first course…</p>
          )}
        </div>
      </div>
    </>
  )
}
