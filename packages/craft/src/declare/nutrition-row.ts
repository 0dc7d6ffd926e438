import type { Span, Spans } from './nutrient-span.ts'
import type { NutrientKey, NutritionFormat, NutritionRowRule, ToleranceBand } from './nutrition-rules.ts'
import type { NutritionRow } from './nutrition-schema.ts'
import { declared } from './rounding.ts'

/** A row's value per 100 g in the label's own unit; energy by its factors, each nutrient apart. */
export function valueOf(rule: NutritionRowRule, spans: Spans): Span {
  if ('nutrient' in rule.of) {
    const { nutrient, times = 1 } = rule.of
    const s = spans[nutrient]
    return { low: s.low * times, high: s.high * times, missing: s.missing }
  }
  const terms =
    'sum' in rule.of
      ? rule.of.sum.map((k): [NutrientKey, number] => [k, 1])
      : (Object.entries(rule.of.energy) as [NutrientKey, number][])
  return {
    low: terms.reduce((e, [k, f]) => e + spans[k].low * f, 0),
    high: terms.reduce((e, [k, f]) => e + spans[k].high * f, 0),
    missing: [...new Set(terms.flatMap(([k]) => spans[k].missing))],
  }
}

/** Nutrients a row is made of. */
export const nutrientsOf = (rule: NutritionRowRule): NutrientKey[] => {
  if ('nutrient' in rule.of) return [rule.of.nutrient]
  return 'sum' in rule.of ? [...rule.of.sum] : (Object.keys(rule.of.energy) as NutrientKey[])
}

const close = (s: { low: number; high: number }): boolean => s.high - s.low <= 1e-9 * Math.max(1, Math.abs(s.high))

/** What is printed where both ends of what is possible print the same or lie negligibly apart; undefined where they do not. */
function sure(print: (v: number) => string, low: number, high: number, negligiblePct: number): string | undefined {
  const [a, b] = [print(low), print(high)]
  if (a === b) return a
  return high - low <= (negligiblePct / 100) * Math.abs(high) ? print((low + high) / 2) : undefined
}

function tolerance(
  rule: NutritionRowRule,
  format: NutritionFormat,
  text: string | undefined,
): NutritionRow['tolerance'] {
  const value = Number(text)
  if (text === undefined || !Number.isFinite(value)) return undefined
  if (rule.compliance)
    return {
      ...(rule.compliance.atMostPct === undefined ? {} : { high: (value * rule.compliance.atMostPct) / 100 }),
      ...(rule.compliance.atLeastPct === undefined ? {} : { low: (value * rule.compliance.atLeastPct) / 100 }),
      mark: format.toleranceMark,
    }
  const band = rule.tolerance?.find((b: ToleranceBand) => b.below === undefined || value < b.below)
  if (!band) return undefined
  const d = band.amount ?? (value * (band.pct ?? 0)) / 100
  return { low: Math.max(0, value - d), high: value + d, mark: format.toleranceMark }
}

/** One row of the table: unrounded, rounded, as percent of the daily value, with where it comes from. */
export function rowOf(
  rule: NutritionRowRule,
  format: NutritionFormat,
  spans: Spans,
  servingG: number | undefined,
  from: (keys: readonly NutrientKey[]) => string[],
): NutritionRow {
  const v = valueOf(rule, spans)
  const print = (x: number): string => declared(rule.rounding, x).text
  const k = servingG === undefined ? undefined : servingG / 100
  const per100g = sure(print, v.low, v.high, format.negligiblePct)
  const perServing = k === undefined ? undefined : sure(print, v.low * k, v.high * k, format.negligiblePct)
  const { dailyValue, dvRounding } = rule
  // A row printed as words ("less than 1") has no figure to take a percent of.
  const counted = (x: number): number => (rule.dvOfPrinted ? (declared(rule.rounding, x).value ?? 0) : x)
  const dv = (x: number): number => (100 * counted(x * (k ?? 0))) / (dailyValue ?? 1)
  const asksDv = dailyValue !== undefined && dvRounding !== undefined && k !== undefined
  const declaredDv = asksDv
    ? sure((x) => declared(dvRounding, x).text, dv(v.low), dv(v.high), format.negligiblePct)
    : undefined
  const band = tolerance(rule, format, format.basis === 'per serving' ? perServing : per100g)
  return {
    key: rule.key,
    label: rule.label,
    unit: rule.unit,
    mandatory: rule.mandatory,
    per100gLow: v.low,
    per100gHigh: v.high,
    ...(close(v) ? { per100g: v.high } : {}),
    ...(close(v) && k !== undefined ? { perServing: v.high * k } : {}),
    // A US panel is drawn for the serving; its rounding is not defined for 100 g.
    ...(per100g !== undefined && format.basis === 'per 100 g' ? { declaredPer100g: per100g } : {}),
    ...(rule.percentOnly
      ? declaredDv === undefined
        ? {}
        : { declaredPerServing: declaredDv }
      : perServing === undefined
        ? {}
        : { declaredPerServing: perServing }),
    ...(asksDv && close(v) ? { dvPct: dv(v.high) } : {}),
    ...(declaredDv === undefined || rule.percentOnly ? {} : { declaredDv }),
    from: from(nutrientsOf(rule)),
    missing: [...v.missing],
    ...(band ? { tolerance: band } : {}),
    ...(rule.caution === undefined ? {} : { caution: rule.caution }),
  }
}
