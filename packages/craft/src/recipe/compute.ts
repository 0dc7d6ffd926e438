import { InvalidInput } from '../calculation.ts'
import { compositionOf, fatSdOf } from '../blend/composition-of.ts'
import type { RecipeComputed, RecipeComputeInput, RecipeLine } from './compute-schema.ts'
import { factsOf } from './facts.ts'
import { partsOf, type Part } from './lines.ts'
import { isBinder, kgOf } from './identity.ts'
import { lossOf, measuresOf } from './measures.ts'
import { cureOf } from './salt-and-cure.ts'

function lineOf(p: Part, meatKg: number, totalKg: number): RecipeLine {
  return {
    material: p.material.id,
    name: p.material.name,
    category: p.material.category,
    ...(p.lot ? { lot: p.lot.lot } : {}),
    role: p.role,
    pctOfMeat: (100 * p.kg) / meatKg,
    pctOfTotal: (100 * p.kg) / totalKg,
    kg: p.kg,
    ...(p.composition.fatPct === undefined ? {} : { fatPct: p.composition.fatPct }),
    ...(p.costPerKg === undefined ? {} : { costPerKg: p.costPerKg, cost: p.costPerKg * p.kg }),
  }
}

function costOf(parts: readonly Part[], totalKg: number, finishedKg: number | undefined): RecipeComputed['cost'] {
  const unpriced = parts.filter((p) => p.kg > 0 && p.costPerKg === undefined).map((p) => p.material.id)
  const knownTotal = parts.reduce((s, p) => s + p.kg * (p.costPerKg ?? 0), 0)
  if (unpriced.length > 0) return { knownTotal, unpriced }
  return {
    total: knownTotal,
    perKgRaw: knownTotal / totalKg,
    ...(finishedKg === undefined ? {} : { perKgFinished: knownTotal / finishedKg }),
    knownTotal,
    unpriced,
  }
}

/**
 * Everything a recipe comes to at a size, or the weights given in its place: lines, composition, cure, salt, water, binders, cost, and the
 * measures and facts the rulebook judges it by. What some material does not state is named, never taken as zero.
 *
 * @throws InvalidInput naming each material or lot that is not known
 */
export function computeRecipe(input: RecipeComputeInput): RecipeComputed {
  const { parts, notes } = partsOf(input)
  const meatKg = kgOf(parts, (p) => p.role === 'meat')
  const totalKg = kgOf(parts, () => true)
  const lossPct = lossOf(input.recipe)
  const finishedKg = lossPct === undefined ? undefined : totalKg * (1 - lossPct / 100)
  if (finishedKg !== undefined && finishedKg <= 0)
    throw new InvalidInput([
      { path: 'recipe', message: `loses ${lossPct} % in cooking and drying; allowed: a loss that leaves something` },
    ])
  const weighed = parts.map((p) => ({ id: p.material.id, kg: p.kg, composition: p.composition, fatSdPct: p.fatSdPct }))
  const { composition, unknown } = compositionOf(weighed)
  const sd = fatSdOf(weighed)
  const cure = cureOf(input, parts, meatKg, totalKg)
  const measures = measuresOf({ parts, meatKg, totalKg, lossPct, cure, kind: input.recipe.kind })
  const water = measures['rawAddedWaterPct']!
  const {
    acceleratorSaltsPpm: _salts,
    acceleratorAcidsPpm: _acids,
    nitriteSaltsPpm: _nitrite,
    nitrateSaltsPpm: _nitrate,
    ...cureShown
  } = cure
  return {
    lines: parts.map((p) => lineOf(p, meatKg, totalKg)),
    totals: { meatKg, totalKg, ...(lossPct === undefined || finishedKg === undefined ? {} : { lossPct, finishedKg }) },
    composition,
    unknown,
    ...(sd === undefined ? {} : { fatSdPct: sd }),
    cure: cureShown,
    ...('value' in water ? { addedWaterPct: water.value } : {}),
    binderPct: (100 * kgOf(parts, isBinder)) / totalKg,
    phosphatePct: (100 * kgOf(parts, (p) => p.material.category === 'phosphate')) / totalKg,
    spicePct: (100 * kgOf(parts, (p) => p.material.category === 'spice' || p.material.category === 'herb')) / totalKg,
    cost: costOf(parts, totalKg, finishedKg),
    measures,
    facts: factsOf(input, parts),
    notes: [
      ...notes,
      ...(lossPct === undefined
        ? []
        : ['Figures of the finished product take what is lost as water alone; an analysis of the product decides.']),
    ],
    ...(input.on === undefined ? {} : { on: input.on }),
    ...(input.jurisdictions === undefined ? {} : { jurisdictions: input.jurisdictions }),
  }
}
