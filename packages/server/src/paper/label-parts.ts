import type { LabelPack, LabelPart } from '@forcemeat/craft/declare/label/pack'
import { labelParts } from '@forcemeat/craft/declare/label/pack'
import type { LabelOutput, LabelVersion } from '@forcemeat/craft/declare/label/schema'
import type { LeastType } from '@forcemeat/craft/declare/label/type-size'
import { figures } from '@forcemeat/craft/rules'
import { besideEachOther, grid, paragraph, rule, stack, type Block, type GridRow } from './label-blocks.ts'
import { drawCode, type DrawnCode } from './label-code.ts'
import { caPanel, usPanel } from './label-facts-panel.ts'
import { linearPanel, tabularPanel } from './label-facts-small.ts'
import { sizeForFigures, sizeForXHeight } from './label-font.ts'
import { handlingPanel, partHandling } from './label-handling.ts'
import { markBlock } from './label-mark.ts'
import { inAll, slashed } from './label-panel.ts'
import { plain, type Run } from './label-text.ts'

export type LabelParts = {
  readonly head: readonly Block[]
  /** Net quantity, which stands under the head, or at the foot of a front. */
  readonly net: readonly Block[]
  readonly read: readonly Block[]
  readonly beside: readonly Block[]
  readonly bodySize: number
  readonly netSize: number
  readonly code?: DrawnCode
}

const GAP_MM = 1.2

const runsOf = (text: string, spans: readonly { start: number; end: number }[]): Run[] => {
  const cuts = spans.flatMap((s) => [s.start, s.end])
  const edges = [...new Set([0, ...cuts, text.length])].toSorted((a, b) => a - b)
  return edges.slice(0, -1).flatMap((start, i) => {
    const bold = spans.some((s) => s.start <= start && start < s.end)
    return [{ text: text.slice(start, edges[i + 1]), bold }]
  })
}

/** A figure stays with its unit at the end of a line. */
const kept = (text: string): string => text.replaceAll(/(\d) (%|g|kg|°C|°F)(?!\p{L})/gu, '$1\u00A0$2')

const storageOf = (v: LabelVersion): string => v.storage.join('. ')

/** Texts that stand on the label once, because every language says them in the same words. */
function sharedTexts(versions: readonly LabelVersion[]): ReadonlySet<string> {
  const of = (v: LabelVersion): string[] => [v.dateText ?? '', storageOf(v), ...partHandling(v.handling).own]
  const [first, ...others] = versions.map(of)
  return new Set(others.length === 0 ? [] : first!.filter((t) => others.every((o) => o.includes(t))))
}

/** Texts of a language by the part they belong to, but for those that every language shares. */
function partsOf(v: LabelVersion, body: number, shared: ReadonlySet<string>): Record<LabelPart, Block[]> {
  const say = (what: string, text: string | undefined, bold = false): Block[] => {
    if (text === undefined || text === '' || shared.has(text)) return []
    return [paragraph(v.language === 'en' ? what : `${what} (${v.language})`, plain(kept(text), bold), body)]
  }
  const spaced = v.language === 'fr' ? '\u00A0: ' : ': '
  const what = v.language === 'en' ? 'ingredients' : `ingredients (${v.language})`
  return {
    ingredients: [
      // A space that may not break is as long as one that may: the marks stay where they are.
      paragraph(
        what,
        [{ text: `${v.list.heading}${spaced}`, bold: false }, ...runsOf(kept(v.list.text), v.list.emphasised)],
        body,
      ),
    ],
    allergens: [...say('contains line', v.contains, true), ...say('may contain', v.mayContain)],
    statements: say('statements', v.statements.map((s) => `${s[0]?.toUpperCase() ?? ''}${s.slice(1)}.`).join(' ')),
    date: [...say('date', v.dateText, true), ...say('storage', storageOf(v))],
    handling: partHandling(v.handling).own.flatMap((h, i) => say(`handling ${i + 1}`, h)),
    lot: [],
    business: [],
  }
}

const tableRows = (label: LabelOutput): GridRow[] => {
  const table = label.nutrition!
  const value = (text: string | undefined, unit: string) => (text === undefined ? '?' : `${text} ${unit}`)
  return table.panel
    .filter((r) => r.mandatory)
    .map((r) => ({
      label: slashed(inAll(label, (v) => v.nutrition?.rows[r.key])),
      values:
        label.place === 'AU-NZ'
          ? [value(r.declaredPerServing, r.unit), value(r.declaredPer100g, r.unit)]
          : [value(r.declaredPer100g, r.unit)],
      indent: /^(?:of which|–)/.test(r.label),
    }))
}

/** Format and display of the nutrition panel, as the rules name its type sizes; a pack over the small ones has the larger sizes. */
export function panelKey({ place, nutrition }: LabelOutput, pack: LabelPack): string {
  const { format } = nutrition!
  const { panelDisplay: display, availableSurfaceCm2: area } = pack
  if (place !== 'US' || format !== 'us-2016' || display === undefined || display === 'vertical') return format
  if (display === 'linear') return `${format}:linear-small`
  const isSmall = area !== undefined && area <= figures('labelDrawn').displays.mostCm2
  return `${format}:tabular${isSmall ? '-small' : ''}`
}

/** The nutrition table as its place has it. */
function nutritionOf(label: LabelOutput, body: number, pack: LabelPack): Block[] {
  const table = label.nutrition
  if (!table) return []
  const key = panelKey(label, pack)
  const type = figures('labelDrawn').panels[`${label.place}:${key}`]
  if (type && key.includes(':linear')) return [linearPanel(label, type)]
  if (type && key.includes(':tabular')) return [tabularPanel(label, type)]
  if (type) return [label.place === 'CA' ? caPanel(label, type) : usPanel(label, type)]
  const title = slashed(inAll(label, (v) => v.nutrition?.title))
  const word = (w: string): string => kept(slashed(inAll(label, (v) => v.nutrition?.words[w])))
  const per =
    label.place === 'AU-NZ'
      ? [word('Average quantity per serving'), word('Average quantity per 100 g')]
      : [kept(slashed(inAll(label, (v) => v.nutrition?.per)))]
  const notes = inAll(label, (v) => v.nutrition?.footnotes.join(' ')).filter((t) => t !== '')
  return [
    stack(
      'nutrition',
      [
        paragraph('nutrition', plain(title, true), body),
        ...label.serving.map((s) => paragraph('nutrition', plain(kept(`${s.label}: ${s.value}`)), body)),
        grid('nutrition', [{ label: '', values: per, bold: true }, ...tableRows(label)], body),
        // A footnote of percents stands only where percents do.
        ...(label.place === 'AU-NZ' ? [] : notes.map((n) => paragraph('nutrition', plain(n), body))),
      ],
      0.4,
    ),
  ]
}

/** The blocks of a label in three groups: its head, what is read, and its tables and codes. */
export function labelPartsOf(label: LabelOutput, least: LeastType, pack: LabelPack, front: boolean): LabelParts {
  const body = sizeForXHeight(pack.xHeightMm ?? least.xHeightMm)
  const netSize = Math.max(body, sizeForFigures(least.netMm))
  const order = [...(pack.order ?? []), ...labelParts.filter((p) => !(pack.order ?? []).includes(p))]
  const nameSize = Math.max(body * 1.6, 12) * (front ? 1.4 : 1)
  const named = inAll(label, (v) => v.name)
  const words = inAll(label, (v) => v.beside.join(', ')).filter((t) => t !== '')
  const head = [
    ...named.map((n) => paragraph('name', plain(n, true), nameSize)),
    ...(words.length === 0 ? [] : [paragraph('words beside the name', plain(slashed(words)), body)]),
  ]
  const mark = label.mark ? [markBlock(label.mark, body)] : []
  const onFront = label.mark?.kind === 'room'
  const net = [
    ...(label.netText === undefined ? [] : [paragraph('net weight', plain(kept(label.netText), true), netSize)]),
    // A legend stands where the buyer sees it first (9 CFR 317.2, from memory; SOR/2018-108, section 287).
    ...(onFront ? mark : []),
  ]
  const same = sharedTexts(label.versions)
  const each = label.versions.map((v) => partsOf(v, body, same))
  const once = (what: string, text: string | undefined, bold = false): Block[] =>
    text !== undefined && text !== '' && same.has(text) ? [paragraph(what, plain(kept(text), bold), body)] : []
  const prescribed = partHandling(label.handling).prescribed
  const lotWord = slashed(inAll(label, (v) => v.lotWord))
  const shared: Record<LabelPart, Block[]> = {
    ingredients: [],
    allergens: [],
    statements: [],
    date: [...once('date', label.dateText, true), ...once('storage', label.storage.join('. '))],
    handling: [
      ...partHandling(label.handling).own.flatMap((h) => once('handling', h)),
      ...(prescribed.length > 0 ? [handlingPanel(prescribed, body)] : []),
    ],
    lot: label.lot === undefined ? [] : [paragraph('lot', plain(`${lotWord} ${label.lot}`, true), body)],
    business: [
      ...(label.business === undefined ? [] : [paragraph('business', plain(label.business), body)]),
      ...(onFront ? [] : mark),
    ],
  }
  const read =
    each.length === 1
      ? order.flatMap((p) => [...each[0]![p], ...shared[p]])
      : [
          ...(pack.languageArrangement === 'beside'
            ? [
                besideEachOther(
                  'the languages beside each other',
                  each.map((parts, i) =>
                    stack(
                      label.versions[i]!.language,
                      order.flatMap((p) => parts[p]),
                      GAP_MM,
                    ),
                  ),
                  3,
                ),
              ]
            : each.flatMap((parts, i) => [...(i === 0 ? [] : [rule]), ...order.flatMap((p) => parts[p])])),
          rule,
          ...order.flatMap((p) => shared[p]),
        ]
  return {
    head,
    net,
    read,
    beside: nutritionOf(label, body, pack),
    bodySize: body,
    netSize,
    ...(label.code ? { code: drawCode(label.code, pack.moduleMm) } : {}),
  }
}
