import { signal } from '@preact/signals'
import { useEffect, useMemo } from 'preact/hooks'
import { InvalidInput, parseOrThrow, type Fault } from '@forcemeat/craft/calculation'
import { cookInput, type CookInput } from '@forcemeat/craft/heat/cook'
import type { Form } from '../../state/form.ts'
import { readerOf } from '../../state/reader.ts'
import { CookRefused, cookLine } from '../../work/cook-client.ts'
import type { PlanRequest, PlanResult } from '../../work/cook-plan.ts'
import { fieldOfFault, readCook, readProduct } from './cook-form.ts'

/** The request a form stands for, or its faults at the fields. */
export function planRequest(values: Form['values']['value']): { faults: readonly Fault[]; request?: PlanRequest } {
  const reader = readerOf(values)
  const read = readCook(reader, values)
  const product = readProduct(reader, values)
  const targetCoreC = reader.quantity('target.core', 'temperature')
  if (reader.faults.length > 0) return { faults: reader.faults }
  try {
    const input: CookInput = parseOrThrow(cookInput, read)
    return { faults: [], request: { input, product, ...(targetCoreC === undefined ? {} : { targetCoreC }) } }
  } catch (error) {
    if (error instanceof InvalidInput) return { faults: atFields(error.faults) }
    throw error
  }
}

const atFields = (faults: readonly Fault[]): Fault[] =>
  faults.map((f) => ({ path: fieldOfFault(f.path), message: f.message }))

export type PlanShown = { readonly request: PlanRequest; readonly result: PlanResult; readonly ms: number }

/** The cook as typed, reckoned off the page's thread; while a newer one is reckoned the older stays in sight. */
export function usePlan(form: Form) {
  const state = useMemo(
    () => ({
      shown: signal<PlanShown | undefined>(undefined),
      busy: signal(false),
      faults: signal<readonly Fault[]>([]),
    }),
    [],
  )
  const line = useMemo(() => cookLine('plan'), [])
  useEffect(() => line.stop, [])
  const values = form.values.value
  useEffect(() => {
    const { faults, request } = planRequest(values)
    state.faults.value = faults
    if (!request) {
      state.busy.value = false
      return
    }
    state.busy.value = true
    const begun = performance.now()
    line.ask(request).then(
      (result) => {
        state.shown.value = { request, result, ms: performance.now() - begun }
        state.busy.value = false
      },
      (error: unknown) => {
        state.busy.value = false
        if (error instanceof CookRefused) state.faults.value = atFields(error.faults)
      },
    )
  }, [values])
  return state
}
