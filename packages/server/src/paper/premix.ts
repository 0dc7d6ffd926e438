import type { Premix } from '@forcemeat/craft/season/premix'
import type { Content, DocumentDefinition } from 'pdfmake'
import { figure, grams, inOunces, weight } from './amounts.ts'
import { caution, contentWidth, factRow, grid, heading, sheet, shade, signatures, stop, type Frame } from './frame.ts'

export type PremixSheet = Frame & {
  readonly recipe: { readonly name: string; readonly code: string; readonly version: number }
  readonly meatKg: number
  readonly mix: Premix
}

const th = (text: string): Content => ({ text, style: 'th' })
const box = (): Content => ({
  canvas: [{ type: 'rect', x: 1, y: 2, w: 13, h: 13, lineWidth: 0.9, lineColor: '#1d1a16' }],
})

type Row = {
  readonly what: string
  readonly small?: string
  readonly kg: number
  readonly scale?: string | undefined
  readonly fit: boolean
  readonly cure?: boolean
}

function amount(kg: number, s: PremixSheet): Content {
  const ounces = inOunces(kg, s.kitchen.units)
  return {
    stack: [
      { text: weight(kg, s.kitchen.units), fontSize: 15, bold: true, alignment: 'right' },
      ...(ounces === undefined ? [] : [{ text: ounces, style: 'small', alignment: 'right' }]),
    ],
  }
}

function table(rows: readonly Row[], s: PremixSheet): Content {
  return {
    table: {
      headerRows: 1,
      keepWithHeaderRows: 1,
      dontBreakRows: true,
      widths: [17, '*', 90, 96, 76, 40],
      body: [
        [
          th(''),
          th('What'),
          { text: 'Weigh', style: 'th', alignment: 'right' },
          th('Scale'),
          th('Weighed'),
          th('Initials'),
        ],
        ...rows.map((r) =>
          [
            box(),
            {
              stack: [
                { text: r.what, fontSize: 12, bold: true },
                ...(r.small ? [{ text: r.small, style: 'small' }] : []),
              ],
            },
            amount(r.kg, s),
            {
              stack: [
                { text: r.scale ?? 'any fit scale' },
                ...(r.fit
                  ? []
                  : [{ text: 'TOO COARSE: a finer scale, or more batches', bold: true, color: stop, fontSize: 9 }]),
              ],
            },
            { text: '', margin: [0, 18, 0, 0] },
            '',
          ].map((c) => (r.cure ? { ...(typeof c === 'string' ? { text: c } : (c as object)), fillColor: shade } : c)),
        ),
      ],
    },
    layout: grid,
  }
}

function spicePart(s: PremixSheet): Content[] {
  const { spice, batches } = s.mix
  if (spice.lines.length === 0) return []
  return [
    heading('Seasoning pre-mix'),
    table(
      spice.lines.map((l) => ({
        what: l.name,
        small: `${figure(l.gPerKg, 'g/kg of meat', 'metric')}${l.allergens.length > 0 ? `; allergen: ${l.allergens.join(', ')}` : ''}`,
        kg: l.together.kg,
        scale: l.together.scale,
        fit: l.together.fit,
      })),
      s,
    ),
    {
      text: `All together ${weight(spice.totalKg, s.kitchen.units)}. For each of the ${batches} batches weigh ${weight(spice.perBatch.kg, s.kitchen.units)}${spice.perBatch.scale ? ` on ${spice.perBatch.scale}` : ''}${spice.perBatch.fit ? '' : ', which that scale is too coarse for'}.`,
      bold: true,
      margin: [0, 5, 0, 2],
    },
    ...s.mix.advice.map((text): Content => ({ text, style: 'small', margin: [0, 1, 0, 0] })),
  ]
}

function curePart(s: PremixSheet): Content[] {
  const { cure, batches } = s.mix
  if (!cure.made)
    return cure.because === 'the recipe holds no cure'
      ? []
      : [heading('Cure'), { text: `No cure blend: ${cure.because}.` }]
  const b = cure.sheet
  return [
    heading('Cure in salt, in a drum of its own'),
    ...s.mix.cautions.map((text) => caution('CURE: weigh, never spoon; apart from the seasoning', text)),
    table(
      b.sheet.map((l, i) => ({ what: i === 0 ? cure.name : l.line, kg: l.kg, fit: true, cure: true })),
      s,
    ),
    {
      text: `All together ${weight(b.blendKg, s.kitchen.units)}, ${figure(b.blendNitritePct, '% sodium nitrite', 'metric')}. For each of the ${batches} batches weigh ${weight(b.perBatchKg, s.kitchen.units)}: it carries all their salt and cure.`,
      bold: true,
      margin: [0, 5, 0, 2],
    },
    {
      text: `Ingoing nitrite ${figure(b.nitritePpm, 'mg/kg', 'metric')}, between ${figure(b.lowPpm, '', 'metric')} and ${figure(b.highPpm, 'mg/kg', 'metric')} with these scales: ${b.verdict === 'fit' ? 'within' : 'NOT WITHIN'} the band.`,
      ...(b.verdict === 'fit' ? {} : { color: stop, bold: true }),
    },
    ...b.advice.map((text): Content => ({ text, style: 'small', margin: [0, 1, 0, 0] })),
  ]
}

function apartPart(s: PremixSheet): Content[] {
  if (s.mix.apart.length === 0) return []
  return [
    heading('Stays apart, weighed for each batch'),
    {
      ul: s.mix.apart.map(
        (a) =>
          `${a.name}: ${a.alone.kg < 1 ? grams(a.alone.kg * 1000) : weight(a.alone.kg, s.kitchen.units)}; ${a.because}`,
      ),
    },
  ]
}

/** Pre-mix sheet: one bag of dry seasonings and one of cure in salt for many batches, with what a batch takes of each. */
export const premixSheet = (s: PremixSheet): DocumentDefinition =>
  sheet(s, 'Pre-mix sheet', [
    { text: s.recipe.name, style: 'title' },
    factRow([
      ['Recipe', `${s.recipe.code}, version ${s.recipe.version}`],
      ['Batches', String(s.mix.batches)],
      ['Meat block of one batch', weight(s.meatKg, s.kitchen.units)],
      ['Made on', '____________'],
    ]),
    ...spicePart(s),
    ...curePart(s),
    ...apartPart(s),
    signatures(['Weighed and mixed by', 'Second reading by', 'Date'], contentWidth(s.size)),
  ])
