import { signal } from '@preact/signals'
import { useEffect, useMemo } from 'preact/hooks'
import { InvalidInput, parseOrThrow, type Fault } from '@forcemeat/craft/calculation'
import { defaultDeathSet } from '@forcemeat/craft/heat/data/death'
import { scheduleInput, type ScheduleInput, type ScheduleOutput } from '@forcemeat/craft/heat/schedule'
import { targetReduction } from '@forcemeat/rulebook/lethality/target'
import type { Form } from '../../state/form.ts'
import { compact, readerOf } from '../../state/reader.ts'
import { percent, temperature } from '../../ui/figures.ts'
import { FormChoice, FormQuantity, FormText } from '../../ui/form.tsx'
import { Sheet } from '../../ui/sheet.tsx'
import { CookRefused, cookLine } from '../../work/cook-client.ts'
import { stageTexts, tempText } from './cook-form.ts'
import { planRequest } from './plan-state.ts'

type Found = { readonly steps: number; readonly output: ScheduleOutput }

export const searchTexts = {
  'search.objective': 'shortest',
  'search.target': 'core',
  'search.medium': 'air',
  'search.rh': '60',
  'search.speed': '1',
  'search.houseMax': tempText(90),
  'search.surfaceMax': tempText(78),
  'search.steps': '3',
}

/** The searches asked for, one for each number of steps up to the most; or the faults of the fields. */
function searchesOf(form: Form): { faults: readonly Fault[]; searches: ScheduleInput[] } {
  const values = form.values.value
  const { faults, request } = planRequest(values)
  const r = readerOf(values)
  const houseMaxC = r.quantity('search.houseMax', 'temperature', { required: true })
  const surfaceMaxC = r.quantity('search.surfaceMax', 'temperature')
  const [rhPct, airSpeedMPerS] = [r.number('search.rh'), r.number('search.speed')]
  const medium = values['search.medium'] ?? 'air'
  const logs = values['search.target'] === 'log' && request ? targetReduction(request.product.lethality) : undefined
  const set = defaultDeathSet('salmonella')
  if (!request || r.faults.length > 0) return { faults: [...faults, ...r.faults], searches: [] }
  const { stages: _, ...piece } = request.input
  if (!logs && request.targetCoreC === undefined)
    return {
      faults: [{ path: 'target.core', message: 'is empty; allowed: the core temperature to reach' }],
      searches: [],
    }
  const most = Math.min(5, Math.max(1, Math.round(Number(values['search.steps']) || 3)))
  try {
    const searches = Array.from(
      { length: surfaceMaxC === undefined && values['search.objective'] !== 'lowest-loss' ? 1 : most },
      (_, i) =>
        parseOrThrow(
          scheduleInput,
          compact({
            ...piece,
            medium,
            rhPct: medium === 'air' ? rhPct : undefined,
            airSpeedMPerS: medium === 'water' ? undefined : airSpeedMPerS,
            houseMaxC,
            surfaceMaxC,
            target: logs
              ? { logReduction: logs.log, referenceC: set.referenceC, dMinutes: set.dMinutes, zC: set.zC }
              : { coreC: request.targetCoreC },
            objective: values['search.objective'],
            steps: i + 1,
          }),
        ),
    )
    return { faults: [], searches }
  } catch (error) {
    if (error instanceof InvalidInput) return { faults: error.faults, searches: [] }
    throw error
  }
}

/** Put a found schedule in the place of the heating stages; what cools stays. */
function take(form: Form, output: ScheduleOutput): void {
  const values = form.values.value
  const { request } = planRequest(values)
  const cooling = (request?.input.stages ?? []).filter((s) => s.tempC < 45)
  const next = stageTexts([...output.stages, ...cooling])
  const cleared = Object.fromEntries(Object.entries(values).filter(([name]) => !name.startsWith('stages[')))
  form.replace({ ...cleared, ...next })
}

/** Ask for the shortest schedule, or the one that loses least, with the surface never above a limit. */
export function Search({ form }: { form: Form }) {
  const state = useMemo(
    () => ({
      found: signal<readonly Found[]>([]),
      at: signal<number | undefined>(undefined),
      of: signal(0),
      faults: signal<readonly Fault[]>([]),
      run: 0,
    }),
    [],
  )
  const line = useMemo(() => cookLine('search'), [])
  useEffect(() => line.stop, [])
  const stop = (): void => {
    state.run += 1
    line.stop()
    state.at.value = undefined
  }
  const begin = async (): Promise<void> => {
    stop()
    const { faults, searches } = searchesOf(form)
    state.faults.value = faults
    state.found.value = []
    state.of.value = searches.length
    const mine = state.run
    for (const [i, search] of searches.entries()) {
      if (mine !== state.run) return
      state.at.value = i + 1
      try {
        const output = await line.ask(search)
        if (mine !== state.run) return
        state.found.value = [...state.found.value, { steps: i + 1, output }]
      } catch (error) {
        if (mine !== state.run) return
        // More steps may still keep a surface limit that fewer cannot.
        if (error instanceof CookRefused && i === searches.length - 1 && state.found.value.length === 0)
          state.faults.value = error.faults
      }
    }
    state.at.value = undefined
  }
  const least = form.values.value['search.objective'] === 'lowest-loss'
  const rank = (f: Found): number => (least ? f.output.weightLossPct : f.output.minutesTotal)
  const best = state.found.value.toSorted((a, b) => rank(a) - rank(b))[0]
  return (
    <details class="search">
      <summary>Let a search choose the stages</summary>
      <div class="stage-row">
        <FormChoice
          form={form}
          name="search.objective"
          label="Ask for"
          options={[
            { value: 'shortest', label: 'the shortest' },
            { value: 'lowest-loss', label: 'the least loss' },
          ]}
        />
        <FormChoice
          form={form}
          name="search.target"
          label="that reaches"
          options={[
            { value: 'core', label: 'the core to reach' },
            { value: 'log', label: 'the log reduction of the product' },
          ]}
        />
        <FormChoice
          form={form}
          name="search.medium"
          label="Heated in"
          options={[
            { value: 'air', label: 'air' },
            { value: 'water', label: 'water bath' },
            { value: 'steam', label: 'steam' },
          ]}
        />
        {form.values.value['search.medium'] !== 'water' && (
          <>
            {form.values.value['search.medium'] === 'air' && (
              <FormText form={form} name="search.rh" label="RH of the house" numeric unit="%" />
            )}
            <FormText form={form} name="search.speed" label="Air speed of the house" numeric unit="m/s" />
          </>
        )}
        <FormQuantity form={form} name="search.houseMax" kind="temperature" label="House at most" />
        <FormQuantity
          form={form}
          name="search.surfaceMax"
          kind="temperature"
          label="Surface at most"
          hint="Where fat starts to run."
        />
        <FormText form={form} name="search.steps" label="Steps at most" numeric hint="1 to 5" />
      </div>
      <p class="actions">
        <button type="button" onClick={() => void begin()} disabled={state.at.value !== undefined}>
          Search
        </button>
        {state.at.value !== undefined && (
          <>
            <progress max={state.of.value} value={state.at.value - 1} aria-label="Search" />
            <span role="status">
              {state.at.value} of {state.of.value} searches…
            </span>
            <button type="button" class="stop" onClick={stop}>
              Stop
            </button>
          </>
        )}
      </p>
      {state.faults.value.length > 0 && (
        <div class="faults" role="alert">
          <ul>
            {state.faults.value.map((f) => (
              <li key={f.path + f.message}>
                {f.path} {f.message}
              </li>
            ))}
          </ul>
        </div>
      )}
      {state.found.value.length > 0 && (
        <>
          <Sheet
            caption="Schedules found"
            rows={state.found.value}
            rowKey={(f) => f.steps}
            columns={[
              { head: 'Steps', names: true, cell: (f) => `${f.output.stages.length}${f === best ? ', best' : ''}` },
              {
                head: 'Stages',
                cell: (f) => f.output.stages.map((s) => `${temperature(s.tempC)} for ${s.minutes} min`).join(', '),
              },
              { head: 'In all, min', num: true, cell: (f) => Math.round(f.output.minutesTotal) },
              { head: 'Loss', num: true, cell: (f) => percent(f.output.weightLossPct, 3) },
              { head: 'Surface', num: true, cell: (f) => temperature(f.output.surfacePeakC) },
              {
                head: 'Take it',
                cell: (f) => (
                  <button type="button" onClick={() => take(form, f.output)}>
                    Take these<span class="visually-hidden"> {f.output.stages.length} stages</span>
                  </button>
                ),
              },
            ]}
          />
          <p class="quiet">{state.found.value[0]!.output.warnings[0]}</p>
        </>
      )}
    </details>
  )
}
