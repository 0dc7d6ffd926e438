import { z } from 'zod'
import { strengthOf } from '../cure/agent.ts'
import { halfWidth95, scaleSchema, weighingError } from '../cure/scale-error.ts'
import { weighing, type Weighing } from '../cure/weighing.ts'
import { spanWords } from '../quantity/span-words.ts'
import { list, massG, text } from '../schema.ts'
import { computeRecipe } from './compute.ts'
import { recipeComputeInput, type RecipeComputeInput } from './compute-schema.ts'
import { lookupOf } from './lines.ts'

const sheetScale = z.strictObject({ ...scaleSchema.shape, id: text(80), capacityG: massG().optional() })

export const recipeSheetInput = z.strictObject({
  ...recipeComputeInput.omit({ on: true, jurisdictions: true }).shape,
  scales: list(sheetScale, { min: 1, max: 20 }),
  /** Scale already chosen for each line, in the order of the lines; an empty text leaves the choice to the sheet. */
  chosenScales: list(z.string().max(80), { max: 300 }).optional(),
})
export type RecipeSheetInput = z.infer<typeof recipeSheetInput>

const lineSchema = z.strictObject({
  material: z.string(),
  name: z.string(),
  lot: z.string().optional(),
  targetKg: z.number(),
  toleranceG: z.number().optional(),
  toleranceFrom: z.enum(['nitrite band', 'common practice']),
  /** Least and most of a cure that keep the batch in its nitrite band, the other cures at their targets, grams. */
  lowG: z.number().optional(),
  highG: z.number().optional(),
  /** That the amount itself lies outside them, whatever the scale. */
  misses: z.enum(['low', 'high']).optional(),
  scale: z.string().optional(),
  verdict: z.enum(['fit', 'unfit', 'cannot-tell']),
  because: z.string(),
  advice: z.array(z.string()),
})
export const recipeSheetOutput = z.strictObject({
  lines: z.array(lineSchema),
  cautions: z.array(z.string()),
  notes: z.array(z.string()),
})
export type RecipeSheet = z.infer<typeof recipeSheetOutput>
type SheetLine = z.infer<typeof lineSchema>
type SheetScale = z.infer<typeof sheetScale>

/** Tolerance on a line that no limit decides, percent of its weight. Common practice, no source. */
const tolerancePct = (category: string, role: 'meat' | 'addition'): number => {
  if (role === 'meat') return 1
  return category === 'salt' || category === 'water' ? 1 : 3
}

const shown = (x: number): string => String(Number(x.toPrecision(3)))
const spread = ({ lowPpm, highPpm }: Weighing): number => highPpm - lowPpm
const carries = (s: SheetScale, grams: number): boolean => s.capacityG === undefined || grams <= s.capacityG

const noneCarries = (scales: readonly SheetScale[]): string =>
  scales.length === 0 ? 'no scale is on the list' : 'no scale given carries this weight'

function plainLine(base: Base, scales: readonly SheetScale[], allowedG: number): SheetLine {
  const grams = base.targetKg * 1000
  const able = scales.filter((s) => carries(s, grams)).map((s) => ({ s, width: halfWidth95(weighingError(s)) }))
  // The coarsest scale that does: the fine one stays free for what needs it.
  const fit = able.filter((a) => a.width <= allowedG).toSorted((a, b) => b.s.readabilityG - a.s.readabilityG)[0]
  const tolerance = { toleranceG: allowedG, toleranceFrom: 'common practice' as const }
  if (fit)
    return {
      ...base,
      ...tolerance,
      scale: fit.s.id,
      verdict: 'fit',
      because: `± ${shown(fit.width)} g on this scale, ± ${shown(allowedG)} g allowed`,
      advice: [],
    }
  const best = able.toSorted((a, b) => a.width - b.width)[0]
  if (!best)
    return {
      ...base,
      ...tolerance,
      verdict: 'unfit',
      because: noneCarries(scales),
      advice: scales.length === 0 ? [] : ['Weigh it in parts, or use a larger scale.'],
    }
  return {
    ...base,
    ...tolerance,
    scale: best.s.id,
    verdict: 'unfit',
    because: `± ${shown(best.width)} g on the best scale given, ± ${shown(allowedG)} g allowed`,
    advice: [`A scale that shows ${shown(allowedG)} g or finer would do, or a pre-mix for several batches.`],
  }
}

type Base = Pick<SheetLine, 'material' | 'name' | 'targetKg'> & { readonly lot?: string }

/**
 * The weigh sheet of a batch: each line's target, how far it may be off, and which scale is fit for it. Lines that carry nitrite are held
 * to the recipe's nitrite band by the scale's 95 % interval; others to a rule of thumb (common practice, no source).
 */
export function sheetOf({ scales: every, chosenScales = [], ...input }: RecipeSheetInput): RecipeSheet {
  const made = computeRecipe(input satisfies RecipeComputeInput)
  const { find } = lookupOf(input.materials)
  const band = input.recipe.nitriteTarget
  const total = made.cure.nitritePpm
  const lines = made.lines
    .map((l, i) => ({ l, chosen: chosenScales[i] }))
    .filter(({ l }) => l.kg > 0)
    .map(({ l, chosen }): SheetLine => {
      const scales = chosen ? every.filter((s) => s.id === chosen) : every
      const base: Base = {
        material: l.material,
        name: l.name,
        targetKg: l.kg,
        ...(l.lot === undefined ? {} : { lot: l.lot }),
      }
      const agent = find(l.material)?.agent
      const nitrite = agent ? strengthOf(agent).nitrite : 0
      if (!agent || nitrite === 0)
        return plainLine(base, scales, (l.kg * 1000 * tolerancePct(l.category, l.role)) / 100)
      const from = { toleranceFrom: 'nitrite band' as const }
      if (!band || total === undefined)
        return {
          ...base,
          ...from,
          verdict: 'cannot-tell',
          because: band ? made.cure.because : 'the recipe states no nitrite band to hold this weight to',
          advice: ['State the lowest and highest ingoing nitrite the batch may have.'],
        }
      if (input.pickle)
        return {
          ...base,
          ...from,
          verdict: 'cannot-tell',
          because: 'cure in a pickle: what enters the meat rests on the pump, not on this weight alone',
          advice: ['Weigh the meat before and after pumping.'],
        }
      // Other agents of the batch are taken at their target: the band left for this one is what they leave.
      const others = total - (l.kg * nitrite * 1e6) / made.totals.meatKg
      const target = { lowPpm: Math.max(0, band.lowPpm - others), highPpm: Math.max(0, band.highPpm - others) }
      const gramsAt = (ppm: number): number => (ppm * made.totals.meatKg) / (nitrite * 1e3)
      const missed: 'low' | 'high' | undefined =
        total > band.highPpm * (1 + 1e-9) ? 'high' : total < band.lowPpm * (1 - 1e-9) ? 'low' : undefined
      const room = {
        ...from,
        lowG: gramsAt(target.lowPpm),
        highG: gramsAt(target.highPpm),
        ...(missed ? { misses: missed } : {}),
      } as const
      const tried = scales
        .filter((s) => carries(s, l.kg * 1000))
        .map(({ id, capacityG: _capacity, ...scale }) => ({
          id,
          found: weighing({ agentKg: l.kg, composition: agent, basisKg: made.totals.meatKg, scale, target }),
        }))
      // A cure goes on the scale that knows its weight best, even where a coarser one would do.
      const best = tried.toSorted((a, b) => spread(a.found) - spread(b.found))[0]
      const fit = best?.found.verdict === 'fit'
      if (!best) return { ...base, ...room, verdict: 'unfit', because: noneCarries(scales), advice: [] }
      const { lowPpm, highPpm, advice } = best.found
      return {
        ...base,
        ...room,
        scale: best.id,
        verdict: fit ? 'fit' : 'unfit',
        because: `${spanWords(lowPpm + others, highPpm + others)} mg/kg of nitrite on this scale, ${band.lowPpm} to ${band.highPpm} wanted`,
        advice: fit ? [] : advice,
      }
    })
  return { lines, cautions: made.cure.cautions, notes: made.notes }
}
