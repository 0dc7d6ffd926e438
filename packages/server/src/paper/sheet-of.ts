import { InvalidInput } from '@forcemeat/craft/calculation'
import { weighing } from '@forcemeat/craft/cure/weighing'
import { casing } from '@forcemeat/craft/stuff/casing'
import { findMaterial } from '@forcemeat/craft/materials/materials'
import type { Material } from '@forcemeat/craft/materials/schema'
import { cureBand } from '@forcemeat/craft/recipe/cure-band'
import { inForce } from '@forcemeat/rulebook'
import { coolingRules } from '@forcemeat/rulebook/cooling/rules'
import { stagesOf } from '@forcemeat/rulebook/cooling/stages'
import { recipeCautions } from '@forcemeat/rulebook/recipe/cautions'
import type { BatchRecord, Ledger } from '@forcemeat/ledger'
import type { BatchSheet, WeighLine } from './batch-sheet.ts'
import type { PaperAsked } from './asked.ts'
import { frameOf } from './frame-of.ts'

type Line = BatchRecord['lines'][number]

const agents = ['sodiumNitritePct', 'potassiumNitritePct', 'sodiumNitratePct', 'potassiumNitratePct'] as const
const carriesCure = (m: Material | undefined): boolean => agents.some((a) => (m?.agent?.[a] ?? 0) > 0)
/** Weights of the one nitrite agent between which the ingoing nitrite lies in the band the recipe means to hit. */
const bandOf = (record: BatchRecord, material: Material | undefined): WeighLine['band'] =>
  cureBand(
    record.recipeBody,
    material,
    record.lines.map((l) => findMaterial(l.material)),
    record.meatKg,
  )

/** Whether the scale named for a cure is fine enough for this weight of it. */
function fitOf(
  record: BatchRecord,
  line: Line,
  material: Material | undefined,
  band: WeighLine['band'],
): WeighLine['fit'] {
  const scale = record.instruments.find((i) => i.instrument === line.scale)
  const target = record.recipeBody.nitriteTarget
  if (!band || !target || !material?.agent || scale?.readabilityG === undefined || line.targetKg <= 0) return undefined
  return weighing({
    agentKg: line.targetKg,
    composition: material.agent,
    basisKg: record.meatKg,
    scale: {
      readabilityG: scale.readabilityG,
      ...(scale.toleranceG === undefined ? {} : { toleranceG: scale.toleranceG }),
    },
    target,
  }).verdict
}

function weighLine(record: BatchRecord, line: Line, name: (code: string) => string): WeighLine {
  const material = findMaterial(line.material)
  const scale = record.instruments.find((i) => i.instrument === line.scale)
  const band = bandOf(record, material)
  const fit = fitOf(record, line, material, band)
  return {
    what: material?.name ?? line.material,
    ...(line.lot === undefined ? {} : { lot: line.lot }),
    targetKg: line.targetKg,
    ...(band ? { band } : {}),
    ...(line.scale === undefined ? {} : { scale: scale?.name ?? line.scale }),
    ...(scale?.readabilityG === undefined ? {} : { readabilityG: scale.readabilityG }),
    ...(fit ? { fit } : {}),
    cure: carriesCure(material),
    allergens: material?.allergens ?? [],
    weighed: record.weighings
      .filter((w) => w.line === line.line)
      .map(({ kg, lot, instrument, by, at }) => ({
        kg,
        ...(lot === undefined || lot === line.lot ? {} : { lot }),
        ...(instrument === undefined
          ? {}
          : { instrument: record.instruments.find((i) => i.instrument === instrument)?.name ?? instrument }),
        by: name(by),
        at,
      })),
  }
}

/**
 * Ways to chill that are published for the places the batch is judged for; the first that is met is enough. One whose times, or the
 * conditions it asks of the product, nobody has read in their source is no choice to work to, and is left out.
 */
const chillOf = (record: BatchRecord): string[] =>
  record.recipeBody.cook
    ? coolingRules
        .filter((r) => {
          const stages = stagesOf(r.id)
          return stages?.current === true && !stages.fromMemory && inForce(r, record.on) !== undefined
        })
        .filter((r) => record.jurisdictions.some((j) => j === r.jurisdiction))
        .map((r) => `${r.title}; ${r.jurisdiction}, ${r.scope}`)
    : []

/** Casing to lay out and links to expect, for the whole mix as planned. */
function laidOut(record: BatchRecord): { metres: number; links?: number } | undefined {
  const used = record.recipeBody.casing
  const mixKg = record.lines.reduce((kg, l) => kg + l.targetKg, 0)
  if (!used || mixKg <= 0) return undefined
  try {
    const { metres, links } = casing({
      mixKg,
      casing: { calibreMm: used.calibreMm, ...(used.kgPerM === undefined ? {} : { kgPerM: used.kgPerM }) },
      ...(used.linkG === undefined ? {} : { linkG: used.linkG }),
    })
    return { metres, ...(used.linkG === undefined ? {} : { links }) }
  } catch (error) {
    // A calibre the table does not know, and no weight a metre of the kitchen's own: nothing is guessed.
    if (error instanceof InvalidInput) return undefined
    throw error
  }
}

/** What the batch sheet says of a batch of the record. */
export async function sheetOf(ledger: Ledger, record: BatchRecord, paper: PaperAsked): Promise<BatchSheet> {
  const { recipeBody: recipe } = record
  const named =
    recipe.casing?.casing === undefined ? undefined : (findMaterial(recipe.casing.casing)?.name ?? recipe.casing.casing)
  const chill = chillOf(record)
  const cautions = recipeCautions(
    recipe,
    record.lines.map((l) => l.material),
  )
  const people = await ledger.people()
  const name = (code: string): string => people.find((p) => p.person === code)?.name ?? code
  return {
    ...(await frameOf(ledger, record, paper)),
    recipe: { name: recipe.name, code: record.recipe, version: record.version },
    on: record.on,
    meatKg: record.meatKg,
    jurisdictions: record.jurisdictions,
    lines: record.lines.map((l) => weighLine(record, l, name)),
    steps: recipe.steps ?? [],
    ...(recipe.casing
      ? {
          casing: {
            ...(named === undefined ? {} : { name: named }),
            calibreMm: recipe.casing.calibreMm,
            ...(recipe.casing.linkG === undefined ? {} : { linkG: recipe.casing.linkG }),
            ...laidOut(record),
          },
        }
      : {}),
    ...(recipe.cook
      ? {
          cook: {
            targetCoreC: recipe.cook.targetCoreC,
            ...(recipe.cook.holdMinutes === undefined ? {} : { holdMinutes: recipe.cook.holdMinutes }),
            stages: recipe.cook.stages ?? [],
          },
        }
      : {}),
    ...(chill.length > 0 ? { chill } : {}),
    ...(cautions.length > 0 ? { cautions } : {}),
    ...(record.note === undefined ? {} : { note: record.note }),
  }
}
