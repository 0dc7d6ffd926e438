import type { PanelType } from '@forcemeat/craft/declare/label/drawn'
import type { LabelOutput } from '@forcemeat/craft/declare/label/schema'
import { framed, stack, type Block } from './label-blocks.ts'
import { MM_PER_PT } from './label-font.ts'
import { fitted, inAll, panelLines, pitch, slashed, small, type Cell, type Line } from './label-panel.ts'

type Table = NonNullable<LabelOutput['nutrition']>
type Row = Table['panel'][number]

/** Rows set in the regular weight and set in from the edge, by how many steps. */
const steps: Readonly<Record<string, number>> = { saturated: 1, trans: 1, fibre: 1, sugars: 1, addedSugars: 2 }
/** Rows below the second bar: vitamins and minerals, with no bold. */
export const vitamins = ['vitaminD', 'vitaminA', 'vitaminC', 'calcium', 'iron', 'potassium']
const INDENT_MM = 3

/** An amount as a panel prints it. */
export const amount = (r: Row, place: string): string => {
  const value = r.declaredPerServing ?? '?'
  const unit = r.unit === 'µg' ? 'mcg' : r.unit
  return /[a-z]/i.test(value) || place === 'CA' ? `${value} ${unit}` : `${value}${unit}`
}

export const nameOf = (label: LabelOutput, r: Row): string => slashed(inAll(label, (v) => v.nutrition?.rows[r.key]))

/** A row of the panel: its name, its amount, and to the right its percent. */
function rowOf(label: LabelOutput, r: Row, type: PanelType, line: Partial<Line>): Line {
  const at = steps[r.key] ?? 0
  const plain = { pt: type.rowPt, leastPt: type.rowPt }
  const vitamin = vitamins.includes(r.key)
  const strong = at === 0 && !vitamin
  const name = nameOf(label, r)
  const only = label.nutrition!.format === 'us-1993' && vitamin
  const left: Cell[] =
    r.key === 'addedSugars'
      ? [
          {
            ...plain,
            text: slashed(
              inAll(label, (v) => v.nutrition?.rows[r.key]?.replace(/^(\S+) /, `$1 ${amount(r, label.place)} `)),
            ),
          },
        ]
      : [{ ...plain, text: name, bold: strong }, ...(only ? [] : [{ ...plain, text: ` ${amount(r, label.place)}` }])]
  return {
    left,
    ...(r.declaredDv === undefined && !only
      ? {}
      : {
          right: { ...plain, text: `${r.declaredDv ?? '?'}${label.place === 'CA' ? ' %' : '%'}`, bold: !vitamin },
        }),
    indentMm: at * INDENT_MM,
    pitchMm: pitch(type),
    barPt: type.barsPt.hairline,
    ...(r.key === 'addedSugars' ? { fromMm: at * INDENT_MM } : {}),
    ...line,
  }
}

function rowsOf(label: LabelOutput, type: PanelType, leaveOut: readonly string[]): Line[] {
  const rows = label.nutrition!.panel.filter((r) => r.mandatory && !leaveOut.includes(r.key))
  const first = rows.findIndex((r) => vitamins.includes(r.key))
  return rows.map((r, i) => rowOf(label, r, type, i === first ? { barPt: type.barsPt.thick } : {}))
}

const cell = (text: string, pt: number, bold = false): Cell => ({ text, pt, leastPt: pt, bold })
const high = (pt: number): number => pt * MM_PER_PT * 1.2

/** Panel of the United States: the vertical display of 21 CFR 101.9(d)(12), or that of the 1990s. */
export function usPanel(label: LabelOutput, type: PanelType): Block {
  const table = label.nutrition!
  const now = table.format === 'us-2016'
  const size = label.serving.find((s) => s.label !== 'Servings per container')
  const of = (i: number) => inAll(label, (v) => v.serving[i]?.label)
  const servingsAt = label.serving.findIndex((s) => s.label === 'Servings per container')
  const servings = label.serving[servingsAt]
  const word = (w: string): string => slashed(inAll(label, (v) => v.nutrition?.words[w]))
  const calories = table.panel.find((r) => r.key === 'calories')
  const fromFat = table.panel.find((r) => r.key === 'caloriesFromFat')
  const { barsPt } = type
  const titles = inAll(label, (v) => v.nutrition?.title).map((t) => fitted(t, type.headingPt, 40))
  const named = (r: Row): string => nameOf(label, r)
  const head: Line[] = [
    ...(servings === undefined
      ? []
      : [
          now
            ? {
                left: [cell(`${servings.value} ${slashed(of(servingsAt)).toLowerCase()}`, type.servingsPt)],
                pitchMm: high(type.servingsPt),
                barPt: barsPt.hairline,
              }
            : {
                left: [cell(`Servings Per Container ${servings.value}`, type.servingsPt)],
                pitchMm: high(type.servingsPt),
              },
        ]),
    ...(size === undefined
      ? []
      : [
          now
            ? {
                left: [cell(slashed(of(label.serving.indexOf(size))), type.servingsPt, true)],
                right: cell(size.value, type.servingsPt, true),
                pitchMm: high(type.servingsPt),
              }
            : { left: [cell(`Serving Size ${size.value}`, type.servingsPt)], pitchMm: high(type.servingsPt) },
        ]),
    { left: [cell(word('Amount per serving'), type.smallPt, true)], pitchMm: high(type.smallPt), barPt: barsPt.thick },
    ...(calories === undefined
      ? []
      : [
          now
            ? {
                left: [cell(named(calories), type.caloriesPt, true)],
                right: cell(calories.declaredPerServing ?? '?', type.caloriesFigurePt, true),
                pitchMm: high(type.caloriesFigurePt) * 0.9,
              }
            : {
                left: [
                  cell(`${named(calories)} `, type.caloriesPt, true),
                  cell(calories.declaredPerServing ?? '?', type.caloriesFigurePt),
                ],
                ...(fromFat === undefined
                  ? {}
                  : { right: cell(`${named(fromFat)} ${fromFat.declaredPerServing ?? '?'}`, type.rowPt) }),
                pitchMm: pitch(type),
                barPt: barsPt.hairline,
              },
        ]),
    { right: cell(word('% Daily Value*'), type.smallPt, true), pitchMm: high(type.smallPt), barPt: barsPt.middle },
  ]
  const notes = inAll(label, (v) => v.nutrition?.footnotes.join(' '))
  return framed(
    stack(
      'nutrition',
      [
        ...titles,
        panelLines([
          ...head,
          ...rowsOf(label, type, ['calories', 'caloriesFromFat']),
          { pitchMm: 0.4, barPt: now ? barsPt.thick : barsPt.hairline },
        ]),
        ...notes.map((n) => small(n, type)),
      ],
      0.3,
    ),
    barsPt.box * MM_PER_PT,
    1,
  )
}

/** Nutrition facts table of Canada, in both languages where the label is. */
export function caPanel(label: LabelOutput, type: PanelType): Block {
  const table = label.nutrition!
  const { barsPt } = type
  const size = label.serving.at(-1)
  const sizeAt = label.serving.length - 1
  const calories = table.panel.find((r) => r.key === 'calories')
  const together = table.panel.find((r) => r.key === 'saturatedTrans')
  const trans = table.panel.find((r) => r.key === 'trans')
  const lines = rowsOf(label, type, ['calories', 'saturatedTrans']).map((l): Line => {
    // Saturated and trans fat stand together and have one percent.
    if (together === undefined || trans === undefined || l.left?.[0]?.text !== nameOf(label, trans)) return l
    const [name, ...rest] = l.left
    return {
      ...l,
      left: [{ ...name, text: `+ ${name.text}` }, ...rest],
      barPt: 0,
      right: cell(`${together.declaredPerServing ?? '?'} %`, type.rowPt, true),
    }
  })
  const dv = inAll(label, (v) => v.nutrition?.words['% Daily Value*'])
  return framed(
    stack(
      'nutrition',
      [
        ...inAll(label, (v) => v.nutrition?.title).map((t) => fitted(t, type.headingPt, type.headingPt * 1.2)),
        panelLines([
          {
            left: [
              cell(
                slashed(inAll(label, (v) => `${v.serving[sizeAt]?.label ?? ''} ${size?.value ?? '?'}`)),
                type.servingsPt,
              ),
            ],
            pitchMm: high(type.servingsPt),
          },
          ...dv.map((text, i): Line => ({
            ...(i === 0 && calories
              ? {
                  left: [
                    cell(
                      `${nameOf(label, calories)} ${calories.declaredPerServing ?? '?'}`,
                      type.caloriesPt * 1.5,
                      true,
                    ),
                  ],
                }
              : {}),
            right: cell(text, type.smallPt, true),
            pitchMm: i === 0 ? high(type.caloriesPt * 1.5) : high(type.smallPt),
            ...(i === 0 ? { barPt: barsPt.hairline } : {}),
          })),
          ...lines.map((l, i): Line => (i === 0 ? { ...l, barPt: barsPt.thick } : l)),
          { pitchMm: 0.4, barPt: barsPt.thick },
        ]),
        ...inAll(label, (v) => v.nutrition?.footnotes.join(' ')).map((n) => small(n, type)),
      ],
      0.3,
    ),
    barsPt.box * MM_PER_PT,
    1,
  )
}
