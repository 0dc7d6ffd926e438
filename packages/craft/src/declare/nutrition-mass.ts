import { InvalidInput } from '../calculation.ts'
import type { WorkingStep } from '../finding.ts'
import { spansOfPart, type Span, type Spans } from './nutrient-span.ts'
import { nutrientKeys, type NutrientKey } from './nutrition-rules.ts'
import type { NutritionInput } from './nutrition-schema.ts'

/** Nutrients of 100 g of the finished product made of the parts, and the loss it took. */
export type Made = {
  readonly spans: Spans
  readonly finishedKg: number
  readonly waterLossKg: number
  readonly fatLossKg: number
  readonly working: readonly WorkingStep[]
}

const ofFat: readonly NutrientKey[] = ['saturated', 'trans']

/**
 * Mass balance of the mix through cooking or drying: water and fat leave apart, saturated fat in step with the fat, everything else stays.
 *
 * @throws InvalidInput where more water or fat is lost than the parts can hold
 */
export function made({ parts = [], finishedKg, lossPct, fatLossKg = 0 }: NutritionInput): Made {
  const totalKg = parts.reduce((s, p) => s + p.kg, 0)
  const outKg = finishedKg ?? totalKg * (1 - (lossPct ?? 0) / 100)
  const waterLossKg = Math.max(0, totalKg - outKg - fatLossKg)
  const each = parts.map((p) => ({ kg: p.kg, spans: spansOfPart(p) }))
  const inMix = (key: NutrientKey): Span => ({
    low: each.reduce((s, p) => s + (p.kg * p.spans[key].low) / 100, 0),
    high: each.reduce((s, p) => s + (p.kg * p.spans[key].high) / 100, 0),
    missing: [...new Set(each.flatMap((p) => p.spans[key].missing))],
  })
  const mix = Object.fromEntries(nutrientKeys.map((k) => [k, inMix(k)])) as unknown as Spans
  if (waterLossKg > mix.water.high + 1e-6)
    throw new InvalidInput([
      {
        path: finishedKg === undefined ? 'lossPct' : 'finishedKg',
        message: `takes ${short(waterLossKg)} kg of water out of parts that hold ${short(mix.water.high)} kg; allowed: at most that, or more of the loss as fatLossKg`,
      },
    ])
  if (fatLossKg > mix.fat.high + 1e-9)
    throw new InvalidInput([
      {
        path: 'fatLossKg',
        message: `is ${fatLossKg}; the parts hold ${short(mix.fat.high)} kg of fat; allowed: at most that`,
      },
    ])
  const keep = (fatKg: number): number => (fatKg <= 0 ? 1 : Math.max(0, 1 - fatLossKg / fatKg))
  const after = (key: NutrientKey): Span => {
    const s = mix[key]
    if (key === 'water') return { ...s, low: Math.max(0, s.low - waterLossKg), high: s.high - waterLossKg }
    if (key === 'fat') return { ...s, low: Math.max(0, s.low - fatLossKg), high: s.high - fatLossKg }
    if (!ofFat.includes(key)) return s
    return { ...s, low: s.low * keep(mix.fat.low), high: s.high * keep(mix.fat.high) }
  }
  const per100 = (key: NutrientKey): Span => {
    const s = after(key)
    return { ...s, low: (s.low * 100) / outKg, high: (s.high * 100) / outKg }
  }
  const kg = (step: string, expression: string, value: number): WorkingStep => ({ step, expression, value, unit: 'kg' })
  return {
    spans: Object.fromEntries(nutrientKeys.map((k) => [k, per100(k)])) as unknown as Spans,
    finishedKg: outKg,
    waterLossKg,
    fatLossKg,
    working: [
      kg('mix', 'sum of the parts', totalKg),
      kg('finished', finishedKg === undefined ? `mix × (1 − ${lossPct ?? 0} / 100)` : 'as weighed', outKg),
      kg('fat lost', 'as given', fatLossKg),
      kg('water lost', 'mix − finished − fat lost', waterLossKg),
    ],
  }
}

const short = (x: number): string => String(Number(x.toFixed(4)))
