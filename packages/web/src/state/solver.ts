import { signal } from '@preact/signals'

type Solving = typeof import('@forcemeat/craft/blend/solve') & typeof import('@forcemeat/craft/recipe/formulate')

/** The solver, once its binary has come: it is fetched when the first blend is opened, not with the page. */
export const solving = signal<Solving | undefined>(undefined)
export const solverFault = signal('')

let asked = false

/** Fetch the solver, once. */
export function wantSolver(): void {
  if (asked) return
  asked = true
  void Promise.all([import('@forcemeat/craft/blend/solve'), import('@forcemeat/craft/recipe/formulate')]).then(
    ([blend, formulate]) => {
      solving.value = { ...blend, ...formulate }
    },
    (reason: unknown) => {
      asked = false
      solverFault.value = `the solver could not be fetched: ${reason instanceof Error ? reason.message : String(reason)}`
    },
  )
}
