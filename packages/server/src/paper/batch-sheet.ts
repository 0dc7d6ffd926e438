import { nitriteCaution } from '@forcemeat/craft/cure/caution'
import { bothTemperatures } from '@forcemeat/craft/quantity/sentence'
import type { Content, DocumentDefinition } from 'pdfmake'
import { paperDay, paperInstant } from './dates.ts'
import { duration, grams, inOunces, length, temperature, weight } from './amounts.ts'
import { th } from './findings-table.ts'
import { caution, contentWidth, factRow, grid, heading, sheet, shade, signatures, stop, type Frame } from './frame.ts'

export type WeighLine = {
  readonly what: string
  readonly lot?: string
  readonly targetKg: number
  /** Band the weight must fall in. */
  readonly band?: { readonly lowKg: number; readonly highKg: number }
  readonly scale?: string
  readonly readabilityG?: number
  /** `unfit` where the scale named is too coarse for this weight. */
  readonly fit?: 'fit' | 'unfit'
  /** Carries nitrite or nitrate. */
  readonly cure: boolean
  readonly allergens: readonly string[]
  /** What is recorded as weighed, by whom and when; blank on the paper while nothing is. */
  readonly weighed?: readonly Weighed[]
}

export type Weighed = {
  readonly kg: number
  /** Lot, where it is another than the plan's. */
  readonly lot?: string
  readonly instrument?: string
  readonly by: string
  /** UTC instant of recording. */
  readonly at: string
}

export type CookStage = {
  readonly medium: string
  readonly tempC: number
  readonly rhPct?: number | undefined
  readonly minutes?: number | undefined
  readonly untilCoreC?: number | undefined
}

export type BatchSheet = Frame & {
  readonly recipe: { readonly name: string; readonly code: string; readonly version: number }
  readonly on: string
  readonly meatKg: number
  readonly jurisdictions: readonly string[]
  readonly lines: readonly WeighLine[]
  readonly steps: readonly string[]
  readonly casing?: {
    readonly name?: string
    readonly calibreMm: number
    readonly linkG?: number
    readonly metres?: number
    readonly links?: number
  }
  readonly cook?: { readonly targetCoreC: number; readonly holdMinutes?: number; readonly stages: readonly CookStage[] }
  readonly chill?: readonly string[]
  /** What is said at the bench of smoking without cure and of raw meat. */
  readonly cautions?: readonly { readonly title: string; readonly text: string }[]
  readonly note?: string
}

const blank = (height: number): Content => ({ text: '', margin: [0, height, 0, 0] })
// A fresh one each time: the printer writes positions into what it is given.
const box = (): Content => ({
  canvas: [{ type: 'rect', x: 1, y: 2, w: 13, h: 13, lineWidth: 0.9, lineColor: '#1d1a16' }],
})

function weighRow(l: WeighLine, s: BatchSheet): Content[] {
  const scale = l.scale === undefined ? 'any fit scale' : l.scale
  const ounces = inOunces(l.targetKg, s.kitchen.units)
  const reads = l.readabilityG === undefined ? '' : `reads ${grams(l.readabilityG)}`
  return [
    box(),
    {
      stack: [
        { text: l.what, fontSize: 12, bold: true },
        ...(l.lot ? [{ text: `lot ${l.lot}`, style: 'small' }] : [{ text: 'lot: ____________', style: 'small' }]),
        ...(l.allergens.length > 0
          ? [{ text: `allergen: ${l.allergens.join(', ')}`, style: 'small', bold: true, color: stop }]
          : []),
      ],
    },
    {
      stack: [
        { text: weight(l.targetKg, s.kitchen.units), fontSize: 15, bold: true, alignment: 'right' },
        ...(ounces === undefined ? [] : [{ text: ounces, style: 'small', alignment: 'right' }]),
        ...(l.band
          ? [
              {
                text: `${weight(l.band.lowKg, 'metric')} to ${weight(l.band.highKg, 'metric')}`,
                style: 'small',
                alignment: 'right',
              },
            ]
          : []),
      ],
    },
    {
      stack: [
        { text: scale },
        { text: reads, style: 'small' },
        ...(l.fit === 'unfit' ? [{ text: 'TOO COARSE: use a finer scale', bold: true, color: stop, fontSize: 9 }] : []),
      ],
    },
    ...doneCells(l, s),
  ]
}

/** What was weighed, and by whom and when; room to write both where nothing is recorded. */
function doneCells(l: WeighLine, s: BatchSheet): Content[] {
  if (!l.weighed || l.weighed.length === 0) return [blank(18), blank(18)]
  const units = s.kitchen.units
  return [
    {
      stack: [
        ...l.weighed.map((w) => ({
          stack: [
            { text: weight(w.kg, units), fontSize: 12.5, bold: true },
            ...(w.lot ? [{ text: `lot ${w.lot}`, style: 'small' }] : []),
            ...(w.instrument ? [{ text: `on ${w.instrument}`, style: 'small' }] : []),
          ],
        })),
        ...(l.weighed.length > 1
          ? [{ text: `in all ${weight(sumOf(l.weighed), units)}`, style: 'small', bold: true }]
          : []),
      ],
    },
    { stack: l.weighed.map((w) => ({ text: `${w.by}, ${paperInstant(w.at)}`, style: 'small' })) },
  ]
}

const sumOf = (parts: readonly { readonly kg: number }[]): number => parts.reduce((kg, p) => kg + p.kg, 0)

function weighTable(s: BatchSheet): Content {
  const rows = s.lines.flatMap((l) => {
    const cells = weighRow(l, s)
    if (!l.cure) return [cells]
    const shaded = cells.map((c) => ({ ...(c as object), fillColor: shade }))
    const word: Content = { ...(caution('CURE: weigh, never spoon', nitriteCaution) as object), colSpan: 6 }
    return [shaded, [word, '', '', '', '', '']]
  })
  const total = s.lines.reduce((kg, l) => kg + l.targetKg, 0)
  const done = s.lines.every((l) => l.weighed && l.weighed.length > 0)
  const weighedKg = sumOf(s.lines.flatMap((l) => l.weighed ?? []))
  return {
    table: {
      headerRows: 1,
      keepWithHeaderRows: 1,
      dontBreakRows: true,
      widths: [17, '*', 78, 72, 80, 62],
      body: [
        [
          th(''),
          th('What, and from which lot'),
          { text: 'Target', style: 'th', alignment: 'right' },
          th('Scale'),
          th('Weighed'),
          th('By, when'),
        ],
        ...rows,
        [
          '',
          { text: 'Whole mix', bold: true },
          { text: weight(total, s.kitchen.units), bold: true, fontSize: 13, alignment: 'right' },
          '',
          done ? { text: weight(weighedKg, s.kitchen.units), bold: true, fontSize: 12.5 } : '',
          '',
        ],
      ],
    },
    layout: grid,
  }
}

function work(s: BatchSheet): Content[] {
  if (s.steps.length === 0) return []
  return [
    heading('Order of work'),
    {
      table: {
        headerRows: 1,
        keepWithHeaderRows: 1,
        dontBreakRows: true,
        widths: [17, '*', 70, 70, 44],
        body: [
          [th(''), th('Step'), th('Temperature'), th('Time'), th('Initials')],
          ...s.steps.map((step, i) => [
            box(),
            { text: [{ text: `${i + 1}  `, bold: true }, bothTemperatures(step, s.kitchen.units)], fontSize: 11.5 },
            blank(18),
            blank(18),
            blank(18),
          ]),
        ],
      },
      layout: grid,
    },
  ]
}

function casing({ casing: c, kitchen: { units } }: BatchSheet): Content[] {
  if (!c) return []
  const facts: [string, string][] = [['Casing', `${c.name ? `${c.name}, ` : ''}${length(c.calibreMm, units)}`]]
  if (c.linkG !== undefined) facts.push(['Link', weight(c.linkG / 1000, units)])
  if (c.links !== undefined) facts.push(['Links', String(Math.floor(c.links))])
  if (c.metres !== undefined) facts.push(['Casing needed', length(c.metres * 1000, units)])
  return [heading('Stuff'), factRow(facts)]
}

function cook({ cook: c, chill, kitchen: { units } }: BatchSheet): Content[] {
  const parts: Content[] = []
  if (c) {
    const target = `Core to ${temperature(c.targetCoreC, units)}${c.holdMinutes ? `, and held for ${duration(c.holdMinutes)}` : ''}, at the coldest place of the largest piece.`
    parts.push(heading('Cook'), { text: target, fontSize: 12.5, bold: true, margin: [0, 0, 0, 4] })
    if (c.stages.length > 0)
      parts.push({
        table: {
          headerRows: 1,
          keepWithHeaderRows: 1,
          dontBreakRows: true,
          widths: [17, '*', 60, 60, 75, 75, 44],
          body: [
            [th(''), th('Stage'), th('Set to'), th('Humidity'), th('Until'), th('Core and time'), th('Initials')],
            ...c.stages.map((g, i) => [
              box(),
              { text: `${i + 1}  ${g.medium}`, fontSize: 11.5 },
              { text: temperature(g.tempC, units), bold: true, fontSize: 12 },
              g.rhPct === undefined ? '' : `${g.rhPct} % RH`,
              g.untilCoreC !== undefined
                ? `core ${temperature(g.untilCoreC, units)}`
                : g.minutes !== undefined
                  ? duration(g.minutes)
                  : '',
              blank(18),
              blank(18),
            ]),
          ],
        },
        layout: grid,
      })
    parts.push(
      caution(
        'Cooked is what the thermometer says',
        'Colour and firmness do not tell. Smoke before the core is hot only a product that holds its cure. Use a probe that was checked, and log house and core until the core is cold.',
      ),
    )
  }
  if (chill && chill.length > 0)
    parts.push(
      heading('Chill'),
      {
        text: 'Any one of these that fits the product, at the warmest place; logged until the core is cold:',
        style: 'small',
      },
      { ul: chill.map((t) => ({ text: bothTemperatures(t, units), fontSize: 11.5 })), margin: [0, 0, 0, 2] },
    )
  return parts
}

/** The sheet that hangs at the bench: what to weigh, in what order to work, what to reach, and room to write it down. */
export function batchSheet(s: BatchSheet): DocumentDefinition {
  const width = contentWidth(s.size)
  return sheet(s, 'Batch sheet', [
    {
      columns: [
        { text: s.recipe.name, style: 'title', width: '*' },
        { text: s.batch, style: 'title', width: 'auto', alignment: 'right' },
      ],
      columnGap: 12,
    },
    factRow([
      ['Made on', paperDay(s.on)],
      ['Meat block', weight(s.meatKg, s.kitchen.units)],
      ['Recipe', `${s.recipe.code}, version ${s.recipe.version}`],
      ['Judged for', s.jurisdictions.join(', ')],
    ]),
    ...(s.note ? [{ text: s.note, italics: true, margin: [0, 6, 0, 0] }] : []),
    ...(s.cautions ?? []).map((c) => caution(c.title, c.text)),
    heading('Weigh'),
    weighTable(s),
    ...work(s),
    ...casing(s),
    ...cook(s),
    {
      unbreakable: true,
      stack: [
        heading('Done'),
        { text: 'Anything that went otherwise than written, and what was done about it:', style: 'small' },
        ...[20, 22].map((gap) => ({
          canvas: [{ type: 'line', x1: 0, y1: 0, x2: width, y2: 0, lineWidth: 0.5, lineColor: '#b5aa9a' }],
          margin: [0, gap, 0, 0],
        })),
        signatures(['Made by', 'Checked by', 'Date and time'], width),
      ],
    },
  ])
}
