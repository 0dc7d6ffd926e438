import type { CoolingProduct, NotApplicable } from '@forcemeat/craft/heat/chill'
import { coolingOptions, type Condition } from '../../data/cooling/options.ts'

export type Standing = {
  readonly applies: 'yes' | 'no' | 'unknown'
  readonly missing: readonly string[]
  readonly fromMemory: readonly string[]
  /** True where a condition from memory is not met by the figures as remembered. */
  readonly missed: boolean
}

const names = {
  cured: 'whether it is cured',
  intact: 'whether the muscle is intact',
  retail: 'whether it is made at retail',
  largeMassNonIntact: 'whether it is a large-mass non-intact product',
  nitritePpm: 'ingoing sodium nitrite',
  erythorbatePpm: 'ingoing erythorbate or ascorbate',
  brinePct: 'salt and water, for the brine',
} as const

/** Salt in the water phase, %: 100 salt / (salt + water). */
const brinePct = ({ saltPct, waterPct }: CoolingProduct): number | undefined =>
  saltPct === undefined || waterPct === undefined || saltPct + waterPct === 0
    ? undefined
    : (100 * saltPct) / (saltPct + waterPct)

/** Whether an option speaks for the product: a condition known to be missed rules it out, one not known leaves it open. */
export function standing(when: readonly Condition[], product: CoolingProduct): Standing {
  const missing: string[] = []
  const fromMemory: string[] = []
  let missed = false
  for (const c of when) {
    if ('is' in c) {
      // Silence on these means an ordinary product: comminuted, made under inspection, of ordinary size.
      const value = c.of === 'cured' ? product.cured : (product[c.of] ?? false)
      if (value === undefined) missing.push(names[c.of])
      else if (value !== c.is) return { applies: 'no', missing: [], fromMemory: [], missed: false }
      continue
    }
    const value = c.of === 'brinePct' ? brinePct(product) : product[c.of]
    if (c.fromMemory)
      fromMemory.push(`at least ${c.atLeast} ${c.of === 'brinePct' ? '% brine' : 'ppm'} of ${names[c.of]}`)
    if (value === undefined) missing.push(names[c.of])
    else if (value < c.atLeast && c.fromMemory) missed = true
    else if (value < c.atLeast) return { applies: 'no', missing: [], fromMemory: [], missed: false }
  }
  return { applies: missing.length > 0 ? 'unknown' : 'yes', missing, fromMemory, missed }
}

const asks: Readonly<Record<'cured' | 'intact' | 'retail' | 'largeMassNonIntact', readonly [string, string]>> = {
  cured: ['for cured products only', 'for uncured products only'],
  intact: ['for intact muscle only', 'for comminuted or tenderised muscle only'],
  retail: ['for retail and food service only', 'for inspected establishments only'],
  largeMassNonIntact: ['for large-mass non-intact products only', 'not for large-mass non-intact products'],
}

/** Why a condition rules an option out; undefined where it does not. */
function ruledOut(c: Condition, product: CoolingProduct): string | undefined {
  if (standing([c], product).applies !== 'no') return undefined
  if ('is' in c) return asks[c.of][c.is ? 0 : 1]
  const value = c.of === 'brinePct' ? brinePct(product) : product[c.of]
  return `asks at least ${c.atLeast} ${c.of === 'brinePct' ? '%' : 'ppm'} of ${names[c.of]}; ${value} is given`
}

/** The published options that do not speak for a product, each with the condition that rules it out. */
export const coolingNotApplicable = (product: CoolingProduct): NotApplicable[] =>
  coolingOptions.flatMap(({ id, title, when }) => {
    const because = when.map((c) => ruledOut(c, product)).find((r) => r !== undefined)
    return because === undefined ? [] : [{ rule: id, title, because }]
  })
