import { InvalidInput } from '@forcemeat/craft/calculation'
import type { LabelInput } from '@forcemeat/craft/declare/label/schema'
import type { LabelPack } from '@forcemeat/craft/declare/label/pack'
import { recordedPackWeights } from '@forcemeat/craft/declare/label/pack-weights'
import { overall, type Finding } from '@forcemeat/craft/finding'
import { computeRecipe } from '@forcemeat/craft/recipe/compute'
import { lossOf } from '@forcemeat/craft/recipe/measures'
import type { Recipe } from '@forcemeat/craft/recipe/schema'
import { weighedLines } from '@forcemeat/rulebook/batch/weights'
import { judgeRecipe } from '@forcemeat/rulebook/recipe/judge-recipe'
import type { BatchRecord, Ledger } from '@forcemeat/ledger'
import { notHere } from '../http/refusal.ts'
import { judged } from '../judge/judged.ts'

export type LabelAsked = {
  readonly place: LabelInput['place']
  readonly recipe?: string | undefined
  readonly version?: number | undefined
  readonly batch?: string | undefined
  readonly pack: LabelPack
}

/** What a label is made from, but for the label approved before. */
export type LabelFacts = { readonly version: number; readonly input: Omit<LabelInput, 'approved'> }

/** Meat block a recipe is reckoned for where no batch gives one; every figure of a label is a share, so it stands for any. */
const BLOCK_KG = 100

const failedOf = (findings: readonly Finding[], place: string): Failed =>
  findings
    .filter(
      (f) =>
        f.verdict === 'fail' && f.weight !== 'advice' && (f.jurisdiction === place || f.jurisdiction === 'everywhere'),
    )
    // An alternative that passes makes up for the one that fails.
    .filter((f) => f.anyOf === undefined || overall(findings.filter((g) => g.anyOf === f.anyOf)) !== 'pass')
    .map((f) => ({ title: f.title.slice(0, 200), because: f.because.slice(0, 2000) }))

type Failed = NonNullable<LabelInput['failed']>

/** Limits a batch fails; a batch that cannot be judged as it was weighed fails as a whole. */
async function failedIn(ledger: Ledger, record: BatchRecord, place: string): Promise<Failed> {
  try {
    return failedOf((await judged(ledger, record)).findings, place)
  } catch (error) {
    if (!(error instanceof InvalidInput)) throw error
    const because = error.faults.map((f) => `${f.path} ${f.message}`).join('; ')
    return [{ title: 'The batch can be judged', because: because.slice(0, 2000) }]
  }
}

function itemsOf(record: BatchRecord): LabelInput['items'] {
  const lots = new Map(record.lots.map((l) => [l.lot, l]))
  const part = (material: string, kg: number, code: string | undefined) => {
    const lot = code === undefined ? undefined : lots.get(code)
    return {
      kg,
      // What the lot is counts, not what the plan asked for.
      material: lot?.material ?? material,
      ...(code === undefined ? {} : { lot: code }),
      ...(lot?.supplier === undefined ? {} : { supplier: lot.supplier }),
      ...(lot?.fatPct === undefined ? {} : { fatPct: lot.fatPct }),
      ...(lot?.fatSdPct === undefined ? {} : { fatSdPct: lot.fatSdPct }),
    }
  }
  return weighedLines(record).flatMap(({ line, parts, kg }) =>
    parts.length === 0 ? [part(line.material, kg, line.lot)] : parts.map((p) => part(line.material, p.kg, p.lot)),
  )
}

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
    'value' in m ? [[name, m.value] as const] : [],
  )
  return {
    computed,
    product: {
      name: recipe.name,
      kind: recipe.kind,
      smoked: recipe.smoked,
      readyToEat: recipe.readyToEat,
      cased: recipe.casing !== undefined,
      heatTreated: recipe.kind === 'cooked' || recipe.cook !== undefined,
      measures: Object.fromEntries(measures),
    },
  }
}

/** What the record holds for a label: a batch as made, or a version of a recipe. @throws Refusal 404 */
export async function labelFacts(ledger: Ledger, asked: LabelAsked, today: string): Promise<LabelFacts> {
  const { place, pack } = asked
  if (asked.batch !== undefined) {
    const record = await ledger.batch(asked.batch)
    if (!record) throw notHere('batch', asked.batch)
    const items = itemsOf(record)
    const failed = await failedIn(ledger, record, place)
    const held = record.decision === 'hold' ? [{ title: 'Batch on hold', because: 'the decision on it is hold' }] : []
    const packedOn = pack.packedOn ?? record.packs.at(-1)?.on ?? record.on
    const loss = lossOf(record.recipeBody)
    const packWeights = recordedPackWeights(record.measures, record.packs, packScaleErrorG(record))
    return {
      version: record.version,
      input: {
        place,
        recipe: record.recipe,
        batch: record.batch,
        product: productOf(
          record.recipeBody,
          packedOn,
          items.filter((i) => i.kg > 0),
        ).product,
        items,
        ...(loss === undefined ? {} : { lossPct: loss }),
        packedOn,
        pack,
        ...(packWeights ? { packWeights } : {}),
        failed: [...failed, ...held],
      },
    }
  }
  const found = asked.recipe === undefined ? undefined : await ledger.recipe(asked.recipe)
  if (!found) throw notHere('recipe', asked.recipe ?? '')
  const version = asked.version ?? found.newest
  const saved = found.versions.find((v) => v.version === version)
  if (!saved) throw notHere('version', `${String(version)} of recipe ${found.recipe}`)
  const packedOn = pack.packedOn ?? today
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
