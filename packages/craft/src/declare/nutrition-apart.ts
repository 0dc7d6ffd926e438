import type { Spans } from './nutrient-span.ts'
import { nutrientsOf, valueOf } from './nutrition-row.ts'
import type { NutrientKey, NutritionFormat, NutritionQuestion } from './nutrition-rules.ts'
import type { NutritionRow } from './nutrition-schema.ts'

/** From here an analysis is far from its recipe whatever the place tolerates: common practice, no source. */
const FAR_PCT = 25
const FAR_G = 2
const FAR_SALT_G = 0.1

type Made = { readonly spans: Spans; readonly waterLossKg: number; readonly finishedKg: number }

/** Computed values at their widest: where nobody says what ran off, all of the loss may be fat. */
function widest({ spans, waterLossKg, finishedKg }: Made, fatLossUnknown: boolean): Spans {
  if (!fatLossUnknown) return spans
  const fatLow = Math.max(0, spans.fat.low - (100 * waterLossKg) / finishedKg)
  const k = spans.fat.low === 0 ? 0 : fatLow / spans.fat.low
  return {
    ...spans,
    fat: { ...spans.fat, low: fatLow },
    saturated: { ...spans.saturated, low: spans.saturated.low * k },
    trans: { ...spans.trans, low: spans.trans.low * k },
  }
}

/** Rows whose analysed figure and the one computed from what went in cannot both be of this product. */
export function apartIn(
  format: NutritionFormat,
  panel: readonly NutritionRow[],
  given: Partial<Record<NutrientKey, unknown>>,
  made: Made,
  servingG: number | undefined,
  fatLossUnknown: boolean,
): NonNullable<NutritionQuestion['apart']> {
  const computed = widest(made, fatLossUnknown)
  return format.rows.flatMap((rule, i) => {
    const { per100g: analysed, tolerance } = panel[i]!
    if ('energy' in rule.of || analysed === undefined || !nutrientsOf(rule).every((k) => given[k] !== undefined))
      return []
    const { low, high } = valueOf(rule, computed)
    const nearest = Math.min(Math.max(analysed, low), high)
    const off = Math.abs(analysed - nearest)
    // Two grams are nothing of fat and all of the salt; sodium is a fraction of it, in grams or milligrams.
    const salty = nutrientsOf(rule).some((n) => n === 'sodium')
    const apart = off > (FAR_PCT / 100) * Math.max(analysed, nearest)
    const far = apart && (salty ? off > (rule.unit === 'mg' ? 1000 : 1) * FAR_SALT_G : rule.unit === 'g' && off > FAR_G)
    const k = format.basis === 'per serving' ? (servingG === undefined ? undefined : servingG / 100) : 1
    const outside =
      k !== undefined &&
      tolerance !== undefined &&
      ((tolerance.low !== undefined && high * k < tolerance.low - 1e-9) ||
        (tolerance.high !== undefined && low * k > tolerance.high + 1e-9))
    return far || (outside && off > 0) ? [{ label: rule.label, unit: rule.unit, analysed, computed: nearest }] : []
  })
}
