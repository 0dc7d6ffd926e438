import { InvalidInput, type Fault } from '@forcemeat/craft/calculation'
import { compositionSchema } from '@forcemeat/craft/composition'
import { compositionOf, findMaterial } from '@forcemeat/craft/materials/materials'
import { computeRecipe } from '@forcemeat/craft/recipe/compute'
import type { Lot, RecipeComputed } from '@forcemeat/craft/recipe/compute-schema'
import { atFat } from '@forcemeat/craft/recipe/lines'
import { scaleRecipe } from '@forcemeat/craft/recipe/scale'
import type { Jurisdiction, Recipe } from '@forcemeat/craft/recipe/schema'
import { sheetOf, type RecipeSheet } from '@forcemeat/craft/recipe/sheet'
import { judgeRecipe } from '@forcemeat/rulebook/recipe/judge-recipe'
import type { Finding, InstrumentView, LotView } from './views.ts'

export type LineInput = {
  readonly material: string
  readonly lot?: string
  readonly kg: number
  /** Scale chosen for the line; without one the sheet chooses. */
  readonly scale?: string
}

/** A lot in hand as the core takes it. */
export const lotFacts = (l: LotView): Lot => ({
  lot: l.lot,
  material: l.material,
  availableKg: Math.max(0, l.balanceKg),
  ...(l.fatPct === undefined ? {} : { fatPct: l.fatPct }),
  ...(l.fatSdPct === undefined ? {} : { fatSdPct: l.fatSdPct }),
  ...(l.collagenPct === undefined ? {} : { collagenPct: l.collagenPct }),
  ...(l.costPerKg === undefined ? {} : { costPerKg: l.costPerKg }),
})

export const scalesOf = (instruments: readonly InstrumentView[]) =>
  instruments
    .filter((i) => i.type === 'scale' && i.readabilityG !== undefined && !i.retired)
    .map((i) => ({
      id: i.instrument,
      readabilityG: i.readabilityG!,
      ...(i.toleranceG ? { toleranceG: i.toleranceG } : {}),
      ...(i.capacityG === undefined ? {} : { capacityG: i.capacityG }),
    }))

export type SheetLine = RecipeSheet['lines'][number]
export type PlanWorked = {
  readonly computed: RecipeComputed
  readonly sheet: RecipeSheet
  /** The sheet's line for each line given; none where nothing is weighed. */
  readonly sheetFor: readonly (SheetLine | undefined)[]
  readonly findings: readonly Finding[]
}

type PlanInput = {
  readonly recipe: Recipe
  readonly meatKg: number
  readonly lines: readonly LineInput[]
  readonly lots: readonly LotView[]
  readonly instruments: readonly InstrumentView[]
  readonly on: string
  readonly jurisdictions: readonly Jurisdiction[]
}

/** The weigh sheet, the composition and the findings of a set of lines. */
export function workOutPlan(input: PlanInput): PlanWorked | { readonly faults: readonly Fault[] } {
  const { recipe, meatKg, on, jurisdictions } = input
  const used = new Set(input.lines.map((l) => l.lot))
  const lots = input.lots.filter((l) => used.has(l.lot)).map(lotFacts)
  const weighable = input.lines.filter((l) => l.kg > 0)
  const common = { recipe, meatKg, lots, lines: weighable.map(({ scale: _chosen, ...line }) => line) }
  try {
    const computed = computeRecipe({ ...common, on, jurisdictions: [...jurisdictions] })
    const sheet = sheetOf({
      ...common,
      scales: scalesOf(input.instruments),
      chosenScales: weighable.map((l) => l.scale ?? ''),
    })
    let weighed = 0
    return {
      computed,
      sheet,
      sheetFor: input.lines.map((l) => (l.kg > 0 ? sheet.lines[weighed++] : undefined)),
      findings: judgeRecipe({ facts: computed.facts, measures: computed.measures, on, jurisdictions }),
    }
  } catch (error) {
    if (error instanceof InvalidInput) return { faults: error.faults }
    throw error
  }
}

/** Lots that may go into a batch of this day: something left, taken in by then, and not past their date. */
export const usableOn = (lots: readonly LotView[], on: string): LotView[] =>
  lots.filter((l) => l.balanceKg > 0 && l.on <= on && (l.useBy === undefined || l.useBy >= on))

/** What is wrong with a lot for a line of a batch of this day; undefined where nothing is. */
export function lotFault(
  lots: readonly LotView[],
  { material, lot }: { readonly material: string; readonly lot?: string },
  on: string,
): string | undefined {
  if (!lot) return undefined
  const found = lots.find((l) => l.lot === lot)
  if (!found) return `is ${JSON.stringify(lot)}, which has nothing left or is not in stock; allowed: a lot in stock`
  if (found.material !== material) return `is a lot of another material; allowed: a lot of this one`
  if (found.useBy !== undefined && found.useBy < on)
    return `was good until ${found.useBy}, before the batch is made; allowed: a lot good on ${on}`
  if (found.on > on) return `came in on ${found.on}, after the batch is made; allowed: a lot there on ${on}`
  return undefined
}

/** The lines of a recipe at a size, each meat and addition with the lot that comes first by its date of those good on the day. */
export function layOut(recipe: Recipe, meatKg: number, lots: readonly LotView[], on: string): LineInput[] {
  const inHand = usableOn(lots, on).toSorted((a, b) => ((a.useBy ?? '9999') < (b.useBy ?? '9999') ? -1 : 1))
  return scaleRecipe({ recipe, to: { meatKg } }).lines.map(({ material, kg }) => {
    const lot = inHand.find((l) => l.material === material)?.lot
    return { material, kg: rounded(kg), ...(lot ? { lot } : {}) }
  })
}

/** To a tenth of a gram: finer than any scale a batch is weighed on. */
const rounded = (kg: number): number => Number(kg.toFixed(kg < 0.01 ? 6 : 4))

const nothing = { waterPct: 0, proteinPct: 0, fatPct: 0 }

/**
 * What to ask of `blend.solve`: the lots of the recipe's meats as what may be taken, additions as they stand, the recipe's limits on
 * the whole mix. With `heldShares` each meat keeps its share of the recipe, or lies within its own bounds where it has some.
 */
export function blendRequest(
  recipe: Recipe,
  meatKg: number,
  lots: readonly LotView[],
  heldShares: boolean,
  confidencePct: number | undefined,
) {
  const { mixKg, lines } = scaleRecipe({ recipe, to: { meatKg } })
  const notes: string[] = []
  const meats = new Set(recipe.meat.map((m) => m.material))
  const offered = lots.filter((l) => meats.has(l.material) && l.balanceKg > 0)
  const dearest = Math.max(0, ...offered.map((l) => l.costPerKg ?? 0))
  const unpriced = offered.filter((l) => l.costPerKg === undefined).map((l) => l.lot)
  if (unpriced.length > 0) notes.push(`No price for ${unpriced.join(', ')}: taken at the dearest price here.`)
  const fromLots = offered.flatMap((l) => {
    const table = findMaterial(l.material)
    // First the table's figures within 100 %, then the lot's own fat, so that an analysis stands as it was found.
    const known = table && compositionOf(table)
    const own = known && l.fatPct !== undefined ? atFat(known, l.fatPct) : known
    const composition = own && compositionSchema.safeParse(own).data
    if (!composition) notes.push(`Lot ${l.lot} is left out: its composition is not known.`)
    const fatSdPct = l.fatSdPct ?? table?.fatSdPct
    return composition
      ? [
          {
            id: l.lot,
            composition,
            costPerKg: l.costPerKg ?? dearest,
            availableKg: l.balanceKg,
            species: l.material.slice(0, 40),
            ...(fatSdPct === undefined ? {} : { fatSdPct }),
          },
        ]
      : []
  })
  const share = (kg: number): number => (100 * kg) / mixKg
  const additions = lines
    .filter((l) => l.role === 'addition' && l.kg > 0)
    .map((l) => {
      const table = findMaterial(l.material)
      const composition = table && compositionOf(table)
      if (!composition)
        notes.push(
          `${table?.name ?? l.material} has no composition in the table: counted as nothing in the limits of the blend.`,
        )
      return {
        id: `+ ${l.material}`,
        composition: composition ?? nothing,
        costPerKg: 0,
        fatSdPct: table?.fatSdPct ?? 0,
        minPct: share(l.kg),
        maxPct: share(l.kg),
      }
    })
  if (confidencePct !== undefined) notes.push('The fat of additions without a spread in the table is taken as certain.')
  const ofMeat = meatKg / mixKg
  const held = recipe.meat
    .filter((m) => heldShares || m.minPct !== undefined || m.maxPct !== undefined)
    .map((m) => ({
      of: m.material.slice(0, 40),
      minPct: (m.minPct ?? (heldShares && m.maxPct === undefined ? m.pct : 0)) * ofMeat,
      maxPct: (m.maxPct ?? (heldShares && m.minPct === undefined ? m.pct : 100)) * ofMeat,
    }))
  const limits = (recipe.limits ?? []).filter((l) => l.minPct !== undefined || l.maxPct !== undefined)
  return {
    notes,
    offered: fromLots.length,
    input: {
      batchKg: mixKg,
      materials: [...fromLots, ...additions],
      limits: [...held.filter((l) => fromLots.some((m) => m.species === l.of)), ...limits],
      ...(confidencePct === undefined ? {} : { confidencePct }),
    },
  }
}
