import { z } from 'zod'
import { InvalidInput } from '../calculation.ts'
import { spoonFor } from '../cure/spoon.ts'
import { workingSchema, type WorkingStep } from '../finding.ts'
import { spoonWeights, type SpoonWeight } from '../materials/data/measures.ts'
import { findMaterial } from '../materials/materials.ts'
import { agentCompositionSchema, type Material } from '../materials/schema.ts'
import { oneOf, quantity, text } from '../schema.ts'

/**
 * How far one level spoon lies from another of the same jar, either way: grain, damp, and the hand that levels it. Common practice, no
 * source; the samples of the table that state a deviation scatter by 2 to 17 %, weighed by one hand.
 */
const HAND = 0.25
const TSP_PER_TBSP = 3

export const spoonInput = z.strictObject({
  /** Id of a material of the table. */
  material: text(60),
  count: quantity('level spoons', { above: 0, max: 10_000 }),
  spoon: oneOf(['tsp', 'tbsp']),
  form: oneOf(['whole', 'ground', 'leaves', 'crumbled']).optional(),
  /** Composition of an agent, where the jar in hand is not of the table: whatever holds a cure is refused. */
  agent: agentCompositionSchema.optional(),
})
export type SpoonInput = z.infer<typeof spoonInput>

export const spoonOutput = z.strictObject({
  possible: z.boolean(),
  because: z.string(),
  grams: z.number().optional(),
  lowG: z.number().optional(),
  highG: z.number().optional(),
  perTspG: z.number().optional(),
  working: workingSchema,
})
export type SpoonOutput = z.infer<typeof spoonOutput>

const no = (because: string): SpoonOutput => ({ possible: false, because, working: [] })

const perTsp = (w: SpoonWeight): number => (w.spoon === 'tsp' ? w.grams : w.grams / TSP_PER_TBSP)
const shown = (x: number): string => String(Number(x.toPrecision(3)))

/** Why a material is not measured by spoon at all; undefined for a herb or a spice. */
function refusal(material: Material, agent: SpoonInput['agent']): string | undefined {
  const cure = [material.agent, agent].map((a) => a && spoonFor(a)).find((a) => a?.allowed === false)
  if (cure && !cure.allowed) return cure.reason
  // A cure whose strength stands on its certificate alone is a cure all the same.
  if (material.category === 'cure') return spoonRefused
  if (material.category !== 'spice' && material.category !== 'herb')
    return `${material.name} is weighed: spoons are turned into grams for herbs and spices only, where a quarter more or less does no harm`
  return undefined
}

const answer = spoonFor({ sodiumNitritePct: 1 })
const spoonRefused = answer.allowed ? '' : answer.reason

/**
 * Grams in level spoons of a herb or a spice, with how far they may be off; refused for cure, and for all else that is weighed.
 * @throws InvalidInput where the material is not of the table
 */
export function spoonToGrams({ material: id, count, spoon, form, agent }: SpoonInput): SpoonOutput {
  const material = findMaterial(id)
  if (!material)
    throw new InvalidInput([
      { path: 'material', message: `is ${JSON.stringify(id)}; allowed: the id of a material of the table` },
    ])
  const refused = refusal(material, agent)
  if (refused) return no(refused)
  const all = spoonWeights.filter((w) => w.material === id)
  const rows = form === undefined ? all : all.filter((w) => w.form === form)
  if (rows.length === 0) {
    const forms = [...new Set(all.flatMap((w) => w.form ?? []))]
    return no(
      all.length === 0
        ? `no weighed spoon of ${material.name} is on file: weigh five level spoons together and divide by five`
        : `no weighed spoon of ${material.name}, ${form} is on file; there ${forms.length > 0 ? `are ${forms.join(', ')}` : 'is one with no form stated'}`,
    )
  }
  const each = rows.map(perTsp)
  const [least, most] = [Math.min(...each), Math.max(...each)]
  const mean = each.reduce((s, g) => s + g, 0) / each.length
  const tsp = count * (spoon === 'tbsp' ? TSP_PER_TBSP : 1)
  const [lowG, highG] = [least * tsp * (1 - HAND), most * tsp * (1 + HAND)]
  const working: WorkingStep[] = [
    {
      step: 'one level teaspoon',
      expression: `mean of ${each.map(shown).join(', ')} g (SR28 row ${rows[0]!.row})`,
      value: mean,
      unit: 'g',
    },
    { step: 'teaspoons', expression: spoon === 'tbsp' ? `${count} × 3` : `${count}`, value: tsp, unit: 'tsp' },
    { step: 'grams', expression: 'teaspoons × one teaspoon', value: mean * tsp, unit: 'g' },
    { step: 'least', expression: `lightest ${shown(least)} g less ${HAND * 100} %`, value: lowG, unit: 'g' },
    { step: 'most', expression: `heaviest ${shown(most)} g and ${HAND * 100} % more`, value: highG, unit: 'g' },
  ]
  const forms = new Set(rows.map((w) => w.form))
  return {
    possible: true,
    because: `${shown(mean * tsp)} g, anywhere from ${shown(lowG)} to ${shown(highG)} g${forms.size > 1 ? `: ${[...forms].join(' and ')} differ, say which it is` : ''}; a scale settles it`,
    grams: mean * tsp,
    lowG,
    highG,
    perTspG: mean,
    working,
  }
}
