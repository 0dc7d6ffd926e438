import { InvalidInput } from '../../calculation.ts'
import { declareAllergens } from '../allergens.ts'
import { dates } from '../dates.ts'
import { findMaterial } from '../../materials/materials.ts'
import { figures } from '../../rules.ts'
import { ingredients } from '../ingredients.ts'
import { nutrition } from '../nutrition.ts'
import { asksServing, nutritionInput } from '../nutrition-schema.ts'
import { block, blocksOf } from './blocks.ts'
import { casingBlocks, casingOf } from './casing-of.ts'
import { labelChanges } from './changes.ts'
import { codeOf } from './code.ts'
import { fieldsOf } from './fields.ts'
import { displayHolds, surfaceHolds } from './surface.ts'
import { freeTextBlocks } from './free-text.ts'
import { lotCode } from './lot-code.ts'
import { nameExcess } from './excess.ts'
import { ingoingQuid, isMeat, meatBlocks, meatQuid, meatSpeciesOf, withDeclared, type MeatQuid } from './meat-quid.ts'
import { madeBlocks } from './made.ts'
import { markOf } from './mark.ts'
import { missing } from './missing.ts'
import { nameOf } from './name.ts'
import { sharedByName, withNamedQuid } from './named-quid.ts'
import { lossBlocks, tablesByOwnLoss } from './own-loss.ts'
import { parsed } from './parsed.ts'
import { netText } from './net-text.ts'
import { packWeightsOf } from './pack-weights.ts'
import { lineFor } from '../fahrenheit.ts'
import type { LabelInput, LabelOutput } from './schema.ts'
import { labelItemOf, nutritionPart, statementOf, type Stated } from './statement-of.ts'
import { supplierNameBlocks } from './supplier-names.ts'
import { wordsHold } from './translate.ts'
import { languageBlocks, originText, versionsOf } from './version.ts'

/** Class of the table of reference amounts a kind of sausage belongs to, where the kind alone tells it. */
const referenceOf = ({ place, product }: LabelInput) =>
  place !== 'US'
    ? {}
    : product.kind === 'fresh'
      ? { referenceClass: 'sausage', uncooked: true }
      : product.kind === 'cooked'
        ? { referenceClass: 'sausage' }
        : product.kind === 'dried'
          ? { referenceClass: 'dried-sausage' }
          : {}

const nutritionFor = (
  input: LabelInput,
  parts: ReturnType<typeof nutritionPart>[],
  totalKg: number,
  lossPct: number | undefined = input.lossPct,
) => {
  const { place, pack, packedOn } = input
  const serves = asksServing.includes(place)
  if (serves && pack.servingG === undefined) return undefined
  return nutrition(
    parsed(nutritionInput, {
      jurisdiction: place,
      ...referenceOf(input),
      ...(place === 'US' && pack.panel !== undefined ? { format: pack.panel } : {}),
      parts: parts.filter((p) => p.kg > 0),
      ...(pack.per100g === undefined ? {} : { per100g: pack.per100g }),
      ...(pack.per100gSource === undefined ? {} : { per100gSource: pack.per100gSource }),
      ...(serves && pack.servingG !== undefined ? { servingG: pack.servingG } : {}),
      ...(pack.netG === undefined ? {} : { packG: pack.netG }),
      ...(lossPct === undefined || lossPct === 0 ? {} : { lossPct }),
      ...(lossPct !== undefined && lossPct > 0 && pack.fatLossPct !== undefined
        ? // No more fat can leave than leaves in all.
          {
            fatLossKg:
              (totalKg * (lossPct === input.lossPct ? pack.fatLossPct : Math.min(pack.fatLossPct, lossPct))) / 100,
          }
        : {}),
      on: packedOn,
    }),
  )
}

/** Quantity of the meat in the name, as the place reckons it. */
function quidOf(place: string, stated: readonly Stated[], totalKg: number, lossPct: number | undefined): MeatQuid {
  const { quid } = figures('labelling').places[place]!
  if (quid === 'definition of meat') return meatQuid(stated, totalKg, lossPct)
  return quid === 'ingoing weight' ? ingoingQuid(stated, totalKg, lossPct) : { quid: {}, unknown: [] }
}

/** Foods whose durability a packaging gas lengthens say so (Regulation (EU) 1169/2011, Annex III, point 1.1; wording from memory). */
const atmosphere = ({ place, pack }: LabelInput): string[] =>
  pack.protectiveAtmosphere === true && (place === 'EU' || place === 'GB')
    ? ['packaged in a protective atmosphere']
    : []

/** What the figure beside the meat rests on where fat was weighed in by itself. */
const fatNote = (stated: readonly Stated[]): string[] =>
  stated.some((s) => s.item.kg > 0 && findMaterial(s.item.material)?.category === 'fat')
    ? [
        'fat weighed in by itself counts as meat up to the limits of Annex VII B 17, all meat of a species taken together, and stands in the list as well; whether an authority counts fat that never lay on the meat was not read: ask yours',
      ]
    : []

/** A number of servings that was rounded says so (21 CFR 101.9(b)(8), from memory). */
const aboutServings = (text: string, { netG, servingG }: LabelInput['pack']): string =>
  netG !== undefined && servingG !== undefined && Number.isInteger(netG / servingG) ? text : `about ${text}`

/**
 * The content of a label for a place, from the recipe or from a batch as made, with everything that stops its approval and what has changed
 * since the label approved last. It draws nothing.
 *
 * @throws InvalidInput naming the field of the pack an engine refuses
 * @source the engines it asks: list, allergens, meat content, nutrition, dates, name, bar code data, each with its own sources
 */
export function label(input: LabelInput): LabelOutput {
  const { place, pack, product, lossPct, packedOn } = input
  surfaceHolds(pack)
  displayHolds(input)
  wordsHold(place, pack)
  const items = input.items.filter((i) => i.kg > 0)
  const casing = casingOf(input)
  const totalKg = items.reduce((s, i) => s + i.kg, 0)
  if (totalKg <= 0)
    throw new InvalidInput([{ path: 'items', message: 'weigh nothing together; allowed: at least one above 0 kg' }])
  const stated = items.map((i) => statementOf(i, pack.statements ?? [], input.batch !== undefined))
  const meat = quidOf(place, stated, totalKg, lossPct)
  const listItems = nameExcess(
    withNamedQuid(
      sharedByName(
        stated.map((s) => labelItemOf(s, meat.quid, (m) => (isMeat(m) ? meatSpeciesOf(m) : undefined))),
        place,
      ),
      input,
      totalKg,
    ),
    meat.excess ?? {},
  )
  const finishedKg = lossPct === undefined || lossPct === 0 ? undefined : totalKg * (1 - lossPct / 100)
  const list = ingredients({
    jurisdiction: place,
    items: listItems,
    ...(finishedKg === undefined ? {} : { finishedKg }),
    ...(pack.productClass === undefined ? {} : { productClass: pack.productClass }),
    ...(pack.groupSpices === undefined ? {} : { groupSpices: pack.groupSpices }),
    ...(pack.additiveBy === undefined ? {} : { additiveBy: pack.additiveBy }),
    ...(casing ? { casing } : {}),
    on: packedOn,
  })
  const carried = declareAllergens({
    jurisdictions: [place],
    items: listItems,
    ...(pack.crossContact === undefined ? {} : { crossContact: pack.crossContact }),
  })
  const parts = stated.map(nutritionPart)
  const table = nutritionFor(input, parts, totalKg)
  const byOwnLoss = tablesByOwnLoss(input, table, (own) => nutritionFor(input, parts, totalKg, own))
  const dated =
    pack.shelfLifeDays === undefined || pack.storage === undefined
      ? undefined
      : dates({
          jurisdiction: place,
          packedOn,
          shelfLifeDays: pack.shelfLifeDays,
          storage: pack.storage,
          readyToEat: product.readyToEat,
          kind: product.kind,
          stability: input.stability,
          validation: pack.validation,
          storageC: pack.storageC,
          highlyPerishable: pack.highlyPerishable,
          stableUnrefrigerated: pack.stableUnrefrigerated,
          productClass: pack.productClass,
          frozenOn: pack.frozenOn,
          coarse: pack.coarse,
        })
  const lot =
    pack.lotPattern === undefined
      ? undefined
      : lotCode(pack.lotPattern, {
          recipe: input.recipe,
          packedOn,
          ...(input.batch === undefined ? {} : { batch: input.batch }),
        })
  const name = pack.name ?? product.name
  // By name or by number: nitrites are E249 and E250, nitrates E251 and E252.
  const cured = list.items.some((i) => /nitrite|nitrate|\(E?\s?(?:249|25[0-2])\)/i.test(i.text))
  const named = nameOf(withDeclared(input, meat), list, cured, name, meat.quid)
  const code = pack.gtin === undefined && pack.inStore === undefined ? undefined : codeOf(pack, lot, dated)
  const may = carried.places[0]!.mayContain.flatMap((m) => m.say)
  const declared = carried.places[0]!.contains.flatMap((c) => c.allergens)
  const before = input.approved
  const fresh = before === undefined ? [] : declared.filter((a) => !before.allergens.includes(a))
  const packs = packWeightsOf(input)
  const mark = markOf(place, pack)
  const findings = [
    ...list.findings,
    ...(table?.findings ?? []),
    ...(dated?.findings ?? []),
    ...named.findings,
    ...packs.findings,
  ]
  const whole = {
    place,
    name,
    beside: [...named.beside],
    qualifying: named.qualifying,
    ingredients: { ...list, statements: [...list.statements, ...named.statements, ...atmosphere(input)] },
    allergens: [...declared],
    ...(may.length === 0 ? {} : { mayContain: `May contain ${[...new Set(may)].join(', ')}` }),
    ...(table ? { nutrition: table } : {}),
    ...(byOwnLoss.length > 0 ? { nutritionOwn: byOwnLoss } : {}),
    serving:
      table && pack.servingG !== undefined && asksServing.includes(place)
        ? [
            ...(table.servingsPerContainer === undefined
              ? []
              : [
                  {
                    label: table.servingWords?.number ?? 'Servings per container',
                    value: aboutServings(table.servingsPerContainer, pack),
                  },
                ]),
            { label: table.servingWords?.size ?? 'Serving size', value: `${pack.servingG} g` },
          ]
        : [],
    ...(meat.content ? { meatPct: meat.content.meatPct } : {}),
    ...(packs.weighed ? { weighed: packs.weighed } : {}),
    ...(pack.netG === undefined ? {} : { netText: netText(place, pack.netG) }),
    ...(lot === undefined ? {} : { lot }),
    ...(dated ? { dateText: dated.text } : {}),
    storage: dated
      ? [...(dated.storageLine ? [dated.storageLine] : []), ...(dated.frozenOn ? [dated.frozenOn] : [])]
      : [],
    handling: [...(dated?.statements ?? []), ...(pack.handling ?? []).map((line) => lineFor(place, line))],
    ...(pack.business === undefined
      ? {}
      : {
          // A number that stands in the mark is not said twice.
          business: [pack.business, mark?.lines.length ? undefined : pack.approval, originText(place, pack)]
            .filter((t) => t !== undefined)
            .join('. '),
        }),
    ...(mark ? { mark: { ...mark, lines: [...mark.lines] } } : {}),
    ...(code ? { code } : {}),
  }
  const versions = versionsOf(whole, pack)
  const fields = fieldsOf({ ...whole, versions }, pack)
  const otherSupplier = stated.filter((s) => s.otherSupplier !== undefined)
  return {
    ...whole,
    versions,
    fields,
    changes: before === undefined ? [] : labelChanges(before.fields, fields),
    blocks: [
      ...blocksOf(findings),
      ...missing(input, lot),
      ...casingBlocks(input),
      ...(input.open ?? []),
      ...lossBlocks(input, byOwnLoss),
      ...madeBlocks(input, [...declared, ...carried.places[0]!.mayContain.flatMap((m) => m.allergens)], dated?.date),
      ...languageBlocks(place, versions),
      ...supplierNameBlocks(stated, place),
      ...freeTextBlocks(input),
      ...meatBlocks(meat),
      ...fresh.map((a) =>
        block(
          `new-allergen:${a}`,
          `${a} is new: the label approved last does not declare it`,
          'take the labels printed before away from the bench, and say so on approval',
          'person',
        ),
      ),
      ...otherSupplier.map((s) =>
        block(
          `supplier:${s.item.material}:${s.item.supplier ?? ''}`,
          `${s.item.material}${s.item.lot === undefined ? '' : `, lot ${s.item.lot},`} is of ${s.item.supplier ?? 'no named supplier'}; the statement held is of ${s.otherSupplier}`,
          "enter the statement of this lot's supplier",
        ),
      ),
      ...(input.failed ?? []).map((f) =>
        block(`limit:${f.title}`, `A limit failed, ${f.title}: ${f.because}`, 'mend what failed; a label does not'),
      ),
    ],
    notes: [
      ...(pack.inStore === undefined
        ? []
        : [
            'what prefix, item and value of the number in the shop mean is laid down by the country or the shop; ask there before printing',
          ]),
      ...list.notes,
      ...(table?.notes ?? []),
      ...packs.notes,
      ...(meat.content ? fatNote(stated) : []),
    ],
    findings,
  }
}
