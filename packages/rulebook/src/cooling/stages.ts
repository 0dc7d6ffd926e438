import { coolingOptions, type Window } from '../../data/cooling/options.ts'

/** An option's stages, for drawing them beside a curve. */
export type CoolingStages = {
  readonly rule: string
  readonly title: string
  readonly windows: readonly Window[]
  readonly finalC: number
  /** False for a superseded form, shown for comparison only. */
  readonly current: boolean
  /** True where its times, or a condition it asks of the product, are from memory: nothing to plan by. */
  readonly fromMemory: boolean
}

/** Stages of the cooling option with this rule id, or undefined where the rule is no option of stages. */
export function stagesOf(rule: string): CoolingStages | undefined {
  const option = coolingOptions.find((o) => o.id === rule)
  return (
    option && {
      rule,
      title: option.title,
      windows: option.windows,
      finalC: option.finalC,
      current: option.current,
      fromMemory: option.source.mark === 'from-memory' || option.when.some((c) => 'fromMemory' in c && c.fromMemory),
    }
  )
}
