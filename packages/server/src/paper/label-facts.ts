import type { LabelInput } from '@forcemeat/craft/declare/label/schema'
import type { LabelPack } from '@forcemeat/craft/declare/label/pack'
import { recordedPackWeights } from '@forcemeat/craft/declare/label/pack-weights'
import { computeRecipe } from '@forcemeat/craft/recipe/compute'
import { lossOf } from '@forcemeat/craft/recipe/measures'
import type { Recipe } from '@forcemeat/craft/recipe/schema'
import { cookLossPct } from '@forcemeat/rulebook/batch/dry-loss'
import { judgeRecipe } from '@forcemeat/rulebook/recipe/judge-recipe'
import type { BatchRecord, Ledger } from '@forcemeat/ledger'
import { notHere } from '../http/refusal.ts'
import { batchDays, recipeDays, type LabelDays } from './label-days.ts'
import { madeOf } from './label-items.ts'
import { failedOf, judgedFor } from './label-judged.ts'

export type LabelAsked = {
  readonly place: LabelInput['place']
  readonly recipe?: string | undefined
  readonly version?: number | undefined
  readonly batch?: string | undefined
  /** Packing of the batch it is printed for; all of them where none is named. */
  readonly packing?: string | undefined
  readonly pack: LabelPack
}

/** What a label is made from, but for the label approved before. */
export type LabelFacts = { readonly version: number; readonly input: Omit<LabelInput, 'approved'> }

/** Meat block a recipe is reckoned for where no batch gives one; every figure of a label is a share, so it stands for any. */
const BLOCK_KG = 100

/** Largest error of the scales the packs were weighed on; not known where one of them is not named or its error was never entered. */
function packScaleErrorG({ measures, instruments }: BatchRecord): number | undefined {
  const used = new Set(
    measures.flatMap((m) => (m.step === 'pack' && m.what === 'weight' && m.piece === undefined ? [m.instrument] : [])),
  )
  const errors = [...used].map((code) => instruments.find((i) => i.instrument === code)?.toleranceG)
  return errors.length === 0 || errors.includes(undefined) ? undefined : Math.max(...errors.map((e) => e ?? 0))
}

const productOf = (recipe: Recipe, on: string, items?: LabelInput['items']) => {
  const computed = computeRecipe({
    recipe,
    meatKg: BLOCK_KG,
    ...(items === undefined ? {} : { lines: items.map(({ material, kg }) => ({ material, kg })) }),
    on,
  })
  const measures = Object.entries(computed.measures).flatMap(([name, m]) =>
    // Declared meat that is an interval is for the suppliers' figures of collagen to say.
    'value' in m && !(name === 'declaredMeatPct' && m.low !== undefined) ? [[name, m.value] as const] : [],
  )
  return {
    computed,
    product: {
      name: recipe.name,
      kind: recipe.kind,
      smoked: recipe.smoked,
      readyToEat: recipe.readyToEat,
      cased: recipe.casing !== undefined,
      ...(recipe.casing?.casing === undefined ? {} : { casing: recipe.casing.casing }),
      heatTreated: recipe.kind === 'cooked' || recipe.cook !== undefined,
      measures: Object.fromEntries(measures),
    },
  }
}

/** What went in and came out of a batch, where something of it was packed. */
async function weightsOf(
  ledger: Ledger,
  record: BatchRecord,
  packings: LabelDays['packings'],
  lossOf: NonNullable<LabelInput['made']>['lossOf'],
  piecesLossPct: number | undefined,
): Promise<Pick<LabelInput, 'made' | 'packings'>> {
  const balance = record.packs.length === 0 ? undefined : await ledger.massBalance(record.batch)
  if (!balance || balance.inKg <= 0) return {}
  return {
    made: {
      inKg: balance.inKg,
      packedKg: balance.packedKg,
      reworkKg: balance.reworkKg,
      ...(lossOf === undefined ? {} : { lossOf }),
      ...(piecesLossPct === undefined || piecesLossPct < 0 ? {} : { piecesLossPct }),
    },
    packings: packings.map(({ pack, count, totalKg, useBy }) => ({
      pack,
      count,
      totalKg,
      ...(useBy === undefined ? {} : { useBy }),
    })),
  }
}

/** What the record holds for a label of a batch as made. @throws Refusal 404 */
async function batchFacts(
  ledger: Ledger,
  batch: string,
  { place, pack, packing }: LabelAsked,
  today: string,
): Promise<LabelFacts> {
  const record = await ledger.batch(batch)
  if (!record) throw notHere('batch', batch)
  const [{ items, open, reworkAllergens }, judgement] = await Promise.all([
    madeOf(ledger, record),
    judgedFor(ledger, record, place),
  ])
  const { failed, stability, piecesLossPct } = judgement
  const held = record.decision === 'hold' ? [{ title: 'Batch on hold', because: 'the decision on it is hold' }] : []
  const { packedOn, packings } = batchDays(record, pack, packing, today)
  // What the pieces lost stands for the loss of drying; a cook before it is the recipe's own.
  const measured = record.recipeBody.cook === undefined && piecesLossPct !== undefined && piecesLossPct >= 0
  const loss = measured ? piecesLossPct : lossOf(record.recipeBody)
  const packWeights = recordedPackWeights(record.measures, record.packs, packScaleErrorG(record))
  const weights = await weightsOf(
    ledger,
    record,
    packings,
    measured ? 'pieces' : loss === undefined ? undefined : 'recipe',
    measured ? undefined : cookLossPct(record),
  )
  const weighed = items.filter((i) => i.kg > 0)
  return {
    version: record.version,
    input: {
      place,
      recipe: record.recipe,
      batch: record.batch,
      product: productOf(record.recipeBody, packedOn, weighed).product,
      items: [...items],
      ...(loss === undefined ? {} : { lossPct: loss }),
      packedOn,
      pack,
      ...(packWeights ? { packWeights } : {}),
      ...(stability === undefined ? {} : { stability }),
      ...weights,
      ...(reworkAllergens.length === 0 ? {} : { reworkAllergens }),
      open: [...judgement.open, ...open],
      failed: [...failed, ...held],
    },
  }
}

/** The pack of an inspected or approved kitchen with the number of its profile, where the pack names none. */
async function withNumber(ledger: Ledger, pack: LabelPack): Promise<LabelPack> {
  if (pack.premises?.route !== 'inspected' || pack.approval !== undefined) return pack
  const approval = (await ledger.kitchen())?.approval
  return approval === undefined || approval.length > 40 ? pack : { ...pack, approval }
}

/** What the record holds for a label: a batch as made, or a version of a recipe. @throws Refusal 404 */
export async function labelFacts(ledger: Ledger, as: LabelAsked, today: string): Promise<LabelFacts> {
  const { place } = as
  const pack = await withNumber(ledger, as.pack)
  const asked = { ...as, pack }
  if (asked.batch !== undefined) return batchFacts(ledger, asked.batch, asked, today)
  const found = asked.recipe === undefined ? undefined : await ledger.recipe(asked.recipe)
  if (!found) throw notHere('recipe', asked.recipe ?? '')
  const version = asked.version ?? found.newest
  const saved = found.versions.find((v) => v.version === version)
  if (!saved) throw notHere('version', `${String(version)} of recipe ${found.recipe}`)
  const packedOn = recipeDays(pack, today)
  const { product, computed } = productOf(saved.body, packedOn)
  const findings = judgeRecipe({
    facts: computed.facts,
    measures: computed.measures,
    on: packedOn,
    jurisdictions: [place],
  })
  const loss = lossOf(saved.body)
  return {
    version,
    input: {
      place,
      recipe: found.recipe,
      product,
      items: [...saved.body.meat, ...saved.body.additions].map((p) => ({
        kg: (p.pct * BLOCK_KG) / 100,
        material: p.material,
      })),
      ...(loss === undefined ? {} : { lossPct: loss }),
      packedOn,
      pack,
      failed: failedOf(findings, place),
    },
  }
}
