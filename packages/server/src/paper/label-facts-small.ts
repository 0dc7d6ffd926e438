import type { PanelType } from '@forcemeat/craft/declare/label/drawn'
import type { LabelOutput } from '@forcemeat/craft/declare/label/schema'
import { framed, stack, type Block, type Box } from './label-blocks.ts'
import { amount, nameOf, vitamins } from './label-facts-panel.ts'
import { MM_PER_PT, widthMm } from './label-font.ts'
import { inAll, panelLines, pitch, slashed, small, type Cell, type Line } from './label-panel.ts'

type Row = NonNullable<LabelOutput['nutrition']>['panel'][number]

const WHAT = 'nutrition'
const GAP_MM = 2.5
const SPACE_PT = 0.2
/** A space no line breaks at. */
const KEPT = '\u00A0'
const cell = (text: string, pt: number, bold = false): Cell => ({ text, pt, leastPt: pt, bold })
const high = (pt: number): number => pt * MM_PER_PT * 1.15

/** Words of several sizes one after another, broken where the width ends. */
export const flow = (cells: readonly Cell[]): Block => {
  const words = cells.flatMap((c) =>
    c.text
      .split(' ')
      .filter((t) => t !== '')
      .map((text) => ({ ...c, text, width: widthMm(text, c.pt, c.bold ?? false) })),
  )
  const least = Math.max(0, ...words.map((w) => w.width))
  return {
    what: WHAT,
    least,
    place: (x, width, top) => {
      const lines: (typeof words)[] = []
      let used = 0
      for (const w of words) {
        const space = w.pt * MM_PER_PT * SPACE_PT
        const line = lines.at(-1)
        if (line && used + space + w.width <= width) {
          line.push(w)
          used += space + w.width
        } else {
          lines.push([w])
          used = w.width
        }
      }
      let y = top
      const boxes = lines.flatMap((line) => {
        const largest = Math.max(...line.map((w) => w.pt))
        const base = y + high(largest) * 0.8
        y += high(largest)
        let at = x
        return line.map((w): Box => {
          const box = {
            kind: 'text' as const,
            what: WHAT,
            x: at,
            y: base,
            sizePt: w.pt,
            bold: w.bold ?? false,
            text: w.text,
            leastPt: w.leastPt,
          }
          at += w.width + w.pt * MM_PER_PT * SPACE_PT
          return box
        })
      })
      return { boxes, height: y - top, tooWide: Math.max(0, least - width) }
    },
  }
}

/** Blocks beside each other, each as wide as it must be, what is left shared out. */
const columns = (blocks: readonly Block[]): Block => {
  const least = blocks.reduce((s, b) => s + b.least, 0) + (blocks.length - 1) * GAP_MM
  return {
    what: WHAT,
    least,
    place: (x, width, top) => {
      const spare = Math.max(0, width - least) / blocks.length
      let at = x
      const placed = blocks.map((b) => {
        const p = b.place(at, b.least + spare, top)
        at += b.least + spare + GAP_MM
        return p
      })
      return {
        boxes: placed.flatMap((p) => p.boxes),
        height: Math.max(0, ...placed.map((p) => p.height)),
        tooWide: Math.max(0, least - width),
      }
    },
  }
}

type Facts = {
  readonly rows: readonly Row[]
  readonly calories: Row | undefined
  readonly servings: string | undefined
  readonly sizeWord: string
  readonly size: string | undefined
  readonly word: (w: string) => string
  readonly titles: readonly string[]
  readonly notes: readonly string[]
}

function factsOf(label: LabelOutput): Facts {
  const table = label.nutrition!
  const at = label.serving.findIndex((s) => s.label === 'Servings per container')
  const sizeAt = label.serving.findIndex((s) => s.label !== 'Servings per container')
  const of = (i: number) => slashed(inAll(label, (v) => v.serving[i]?.label))
  return {
    rows: table.panel.filter((r) => r.mandatory && r.key !== 'calories' && r.key !== 'caloriesFromFat'),
    calories: table.panel.find((r) => r.key === 'calories'),
    servings: at < 0 ? undefined : `${label.serving[at]!.value} ${of(at).toLowerCase()}`,
    sizeWord: of(sizeAt),
    size: label.serving[sizeAt]?.value.replaceAll(' ', KEPT),
    word: (w) => slashed(inAll(label, (v) => v.nutrition?.words[w])),
    titles: inAll(label, (v) => v.nutrition?.title),
    notes: inAll(label, (v) => v.nutrition?.footnotes.join(' ')),
  }
}

/** A nutrient with its amount, as a vertical panel has it. */
const said = (label: LabelOutput, r: Row): readonly [string, string] =>
  r.key === 'addedSugars'
    ? [slashed(inAll(label, (v) => v.nutrition?.rows[r.key]?.replace(/^(\S+) /, `$1 ${amount(r, label.place)} `))), '']
    : [nameOf(label, r), ` ${amount(r, label.place)}`]
const indents: Readonly<Record<string, number>> = { saturated: 1, trans: 1, fibre: 1, sugars: 1, addedSugars: 2 }

/** Panel of the United States in columns: 21 CFR 101.9(d)(11)(iii), and of small packs (j)(13)(ii)(A)(1). */
export function tabularPanel(label: LabelOutput, type: PanelType): Block {
  const f = factsOf(label)
  const { barsPt } = type
  const head = stack(
    WHAT,
    [
      ...f.titles.map((t) => flow([cell(t, type.headingPt, true)])),
      ...(f.servings === undefined ? [] : [flow([cell(f.servings, type.servingsPt)])]),
      ...(f.size === undefined
        ? []
        : [flow([cell(f.sizeWord, type.servingsPt, true), cell(f.size, type.servingsPt, true)])]),
      ...(f.calories === undefined
        ? []
        : [
            panelLines([
              {
                left: [cell(nameOf(label, f.calories), type.caloriesPt, true)],
                right: cell(f.calories.declaredPerServing ?? '?', type.caloriesFigurePt, true),
                pitchMm: high(type.caloriesFigurePt),
                barPt: barsPt.middle,
              },
              { left: [cell(f.word('Amount per serving'), type.smallPt)], pitchMm: high(type.smallPt) },
            ]),
          ]),
    ],
    0.3,
  )
  const upper = f.rows.filter((r) => !vitamins.includes(r.key))
  const lower = f.rows.filter((r) => vitamins.includes(r.key))
  const cut = upper.findIndex((r) => r.key === 'carbohydrate')
  const column = (rows: readonly Row[]): Block =>
    panelLines([
      {
        left: [cell(f.word('Amount per serving'), type.smallPt, true)],
        right: cell(f.word('% Daily Value*'), type.smallPt, true),
        pitchMm: high(type.smallPt),
      },
      ...rows.map((r, i): Line => {
        const [name, rest] = said(label, r)
        const at = indents[r.key] ?? 0
        return {
          left: [cell(name, type.rowPt, at === 0), ...(rest === '' ? [] : [cell(rest, type.rowPt)])],
          ...(r.declaredDv === undefined ? {} : { right: cell(`${r.declaredDv}%`, type.rowPt, true) }),
          indentMm: 2 * at,
          pitchMm: pitch(type),
          barPt: i === 0 ? barsPt.middle : barsPt.hairline,
        }
      }),
    ])
  const halves = cut <= 0 ? [upper] : [upper.slice(0, cut), upper.slice(cut)]
  return framed(
    stack(
      WHAT,
      [
        columns([head, ...halves.map(column)]),
        panelLines([{ pitchMm: 0.3, barPt: barsPt.middle }]),
        flow(
          lower.flatMap((r, i) => [
            ...(i === 0 ? [] : [cell('•', type.rowPt)]),
            cell(`${said(label, r).join('')} ${r.declaredDv ?? '?'}%`, type.rowPt),
          ]),
        ),
        ...f.notes.map((n) => small(n, type)),
      ],
      0.3,
    ),
    barsPt.box * MM_PER_PT,
    1,
  )
}

/** Panel of the United States as one string, for small packs: 21 CFR 101.9(j)(13)(ii)(A)(2). */
export function linearPanel(label: LabelOutput, type: PanelType): Block {
  const f = factsOf(label)
  const row = (r: Row, last: boolean): Cell[] => {
    const [name, rest] = said(label, r)
    const strong = (indents[r.key] ?? 0) === 0 && !vitamins.includes(r.key)
    const dv = r.declaredDv === undefined ? '' : ` (${r.declaredDv}%${KEPT}DV)`
    const end = last ? '.' : ','
    return rest + dv === ''
      ? [cell(`${name}${end}`, type.rowPt, strong)]
      : [cell(name, type.rowPt, strong), cell(`${rest}${dv}${end}`, type.rowPt)]
  }
  return framed(
    stack(
      WHAT,
      [
        flow([
          ...f.titles.map((t) => cell(t, type.headingPt, true)),
          ...(f.servings === undefined ? [] : [cell(`${f.servings},`, type.servingsPt)]),
          ...(f.size === undefined
            ? []
            : [cell(`${f.sizeWord}:`, type.servingsPt, true), cell(`${f.size},`, type.servingsPt, true)]),
          cell(`${f.word('Amount per serving')}:`, type.smallPt, true),
          ...(f.calories === undefined
            ? []
            : [
                cell(nameOf(label, f.calories), type.caloriesPt, true),
                cell(`${f.calories.declaredPerServing ?? '?'},`, type.caloriesFigurePt, true),
              ]),
          ...f.rows.flatMap((r, i) => row(r, i === f.rows.length - 1)),
        ]),
        ...f.notes.map((n) => small(n, type)),
      ],
      0.4,
    ),
    type.barsPt.box * MM_PER_PT,
    1,
  )
}
