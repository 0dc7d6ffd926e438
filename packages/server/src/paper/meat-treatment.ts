import type { Finding } from '@forcemeat/craft/finding'
import type { MeatJudged } from '@forcemeat/rulebook/batch/meat'
import type { TreatmentJudged } from '@forcemeat/rulebook/batch/meat-treatment'
import type { Content, DocumentDefinition } from 'pdfmake'
import { paperDay, paperInstant } from './dates.ts'
import { length, temperature, weight } from './amounts.ts'
import { batchHead, verdictRow, type OfBatch } from './batch-head.ts'
import { findingsTable, mark, th } from './findings-table.ts'
import { contentWidth, heading, ruled, sheet, signatures, stop } from './frame.ts'
import { instruments, type PaperInstrument } from './signed-off.ts'

/** A treatment as it was recorded, by its entry. */
export type TreatmentFacts = {
  readonly seq: number
  readonly on: string
  readonly by: string
  readonly thicknessMm?: number | undefined
  readonly thicknessConfirmed?: true | undefined
  readonly roomC?: number | undefined
  readonly from?: string | undefined
  readonly until?: string | undefined
  readonly fileName?: string | undefined
  readonly file?: string | undefined
  readonly instrument?: string | undefined
  readonly document?:
    | { readonly kind: string; readonly reference: string; readonly issuer?: string | undefined }
    | undefined
  readonly note?: string | undefined
}

export type MeatLot = {
  readonly lot: string
  readonly material: string
  readonly kg: number
  readonly supplier?: string | undefined
  readonly supplierLot?: string | undefined
  readonly on: string
}

export type MeatTreatmentRecord = OfBatch & {
  /** The rule the whole batch is held against; absent where its product is cooked, or holds no such meat. */
  readonly finding?: Finding
  readonly meats: readonly MeatJudged[]
  readonly lots: readonly MeatLot[]
  readonly treatments: readonly TreatmentFacts[]
  readonly instruments: readonly PaperInstrument[]
}

const ways: Readonly<Record<string, string>> = {
  'frozen-room': 'Frozen, by the room and the days',
  'frozen-centre': 'Frozen, by a log of the centre',
  'certified-herd': 'Of a certified herd',
  tested: 'Tested for Trichinella',
  'published-cure': 'Cured by a published method',
  'cooked-later': 'Kept for a cooked product',
  'freezing-certificate': 'Freezing, by a paper that came with it',
}

function factsOf(t: TreatmentFacts | undefined, units: 'metric' | 'us'): string[] {
  if (!t) return []
  const held =
    t.from !== undefined && t.until !== undefined
      ? `${((Date.parse(t.until) - Date.parse(t.from)) / 86_400_000).toFixed(1)} days`
      : undefined
  return [
    `entry ${t.seq}, ${paperDay(t.on)}, by ${t.by}`,
    ...(t.thicknessMm === undefined
      ? []
      : [`thickness ${length(t.thicknessMm, units)}${t.thicknessConfirmed ? ', measured so' : ''}`]),
    ...(t.roomC === undefined ? [] : [`room at or below ${temperature(t.roomC, units)}`]),
    ...(t.from === undefined ? [] : [`from ${paperInstant(t.from)}`]),
    ...(t.until === undefined ? [] : [`until ${paperInstant(t.until)}`]),
    ...(held === undefined ? [] : [`held ${held}`]),
    ...(t.instrument === undefined ? [] : [`thermometer ${t.instrument}`]),
    ...(t.fileName === undefined ? [] : [`log ${t.fileName}, SHA-256 ${t.file ?? '?'}`]),
    ...(t.document === undefined
      ? []
      : [`${t.document.kind} ${t.document.reference}${t.document.issuer ? `, issued by ${t.document.issuer}` : ''}`]),
    ...(t.note === undefined ? [] : [t.note]),
  ]
}

function treatment(t: TreatmentJudged, r: MeatTreatmentRecord): Content {
  const facts = factsOf(
    r.treatments.find((x) => x.seq === t.seq),
    r.kitchen.units,
  )
  return {
    stack: [
      { text: ways[t.way] ?? t.way, bold: true },
      ...(facts.length > 0 ? [{ text: facts.join('; '), fontSize: 9.5 }] : []),
      { text: t.because, fontSize: 9.5 },
      ...(t.settle ? [{ text: `Would settle it: ${t.settle}`, fontSize: 9.5, italics: true }] : []),
    ],
    margin: [0, 0, 0, 4],
  }
}

function lotRow(m: MeatJudged, r: MeatTreatmentRecord): Content[] {
  const lot = r.lots.find((l) => l.lot === m.lot)
  return [
    mark(m.verdict),
    {
      stack: [
        { text: m.lot ?? 'no lot recorded', bold: true },
        ...(m.of === undefined ? [] : [{ text: `of ${m.of}`, fontSize: 9.5 }]),
        ...(lot
          ? [
              { text: `${lot.material}, ${weight(lot.kg, r.kitchen.units)} weighed in`, fontSize: 9.5 },
              {
                text: `received ${paperDay(lot.on)}${lot.supplier ? ` from ${lot.supplier}` : ''}${lot.supplierLot ? `, their lot ${lot.supplierLot}` : ''}`,
                fontSize: 9.5,
              },
            ]
          : []),
      ],
    },
    m.species.replaceAll('-', ' '),
    {
      stack:
        m.treatments.length === 0
          ? [{ text: m.because, color: stop, bold: true }, ...(m.settle ? [{ text: m.settle, fontSize: 9.5 }] : [])]
          : m.treatments.map((t) => treatment(t, r)),
    },
  ]
}

/** How the pork, wild boar, bear or horse of a batch was made safe to be eaten without a full cook, lot by lot. */
export function meatTreatment(r: MeatTreatmentRecord): DocumentDefinition {
  const width = contentWidth(r.size)
  const schedules = r.meats.flatMap((m) => m.treatments.flatMap((t) => t.findings))
  return sheet(r, 'Pork treatment record', [
    ...batchHead(r),
    ...(r.finding
      ? [verdictRow(r.finding.verdict, r.finding.because)]
      : [
          {
            text: 'Nothing is asked of the meat of this batch: it holds none that may carry Trichinella, or its product is cooked.',
            margin: [0, 10, 0, 0],
          } as Content,
        ]),
    ...(r.meats.length === 0
      ? []
      : [
          heading('Lots'),
          {
            table: {
              headerRows: 1,
              keepWithHeaderRows: 1,
              dontBreakRows: true,
              widths: [64, 140, 50, '*'],
              body: [
                [th('Verdict'), th('Lot'), th('Meat'), th('How it was made safe')],
                ...r.meats.map((m) => lotRow(m, r)),
              ],
            },
            layout: ruled,
          } as Content,
        ]),
    ...(schedules.length === 0 ? [] : [heading('Held against'), ...findingsTable(schedules, r.kitchen.units)]),
    ...instruments(r.instruments),
    {
      unbreakable: true,
      stack: [
        {
          text: 'Freezing does not make wild boar, bear or other game safe: some Trichinella of game survive it. Local codes and a qualified person come first.',
          style: 'small',
          margin: [0, 10, 0, 0],
        },
        signatures(['Maker', 'Checked by', 'Date and time'], width),
      ],
    },
  ])
}
