import { coolingOptions, type Window } from '../../data/cooling/options.ts'

/** An option's stages, for drawing them beside a curve. */
export type CoolingStages = {
  readonly rule: string
  readonly title: string
  readonly windows: readonly Window[]
  readonly finalC: number
  /** False for a superseded form, shown for comparison only. */
  readonly current: boolean
}

/** Stages of the cooling option with this rule id, or undefined where the rule is no option of stages. */
export function stagesOf(rule: string): CoolingStages | undefined {
  const option = coolingOptions.find((o) => o.id === rule)
  return (
    option && { rule, title: option.title, windows: option.windows, finalC: option.finalC, current: option.current }
  )
}
