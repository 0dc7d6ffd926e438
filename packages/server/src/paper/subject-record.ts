import { canonical, sha256, type ListedEntry } from '@forcemeat/ledger'
import type { Content, DocumentDefinition } from 'pdfmake'
import { paperDay } from './dates.ts'
import { contentWidth, factRow, heading, quiet, ruled, sheet, signatures, stop, type Frame } from './frame.ts'

/** Most entries on one paper; a longer record is printed in parts. */
export const mostOnPaper = 400
/** Most fields of one entry that are written out; a recipe or a label may have more, and its hash pins them all. */
const mostFields = 120

export type SubjectPhoto = { readonly seq: number; readonly caption?: string; readonly jpeg: Uint8Array }

export type SubjectPaper = Frame & {
  /** "Lot SH-1014", "Entries that hold “mustard”". */
  readonly title: string
  readonly entries: readonly ListedEntry[]
  /** Entry the part began after, where it is not the first; and the last entry on it, where more follow. */
  readonly after?: number
  readonly more?: number
  readonly photos: readonly SubjectPhoto[]
  readonly nameOf: (person: string) => string
}

type Leaf = readonly [string, string | number | boolean]

/** Every plain value of a fact with its path, e.g. lines[0].targetKg. */
function leavesOf(value: unknown, path = ''): Leaf[] {
  if (value === null || value === undefined) return []
  if (Array.isArray(value)) return value.flatMap((v, i) => leavesOf(v, `${path}[${i}]`))
  if (typeof value === 'object')
    return Object.entries(value).flatMap(([k, v]) => leavesOf(v, path ? `${path}.${k}` : k))
  return [[path, value as string | number | boolean]]
}

/** Whether the entry, as printed here, has the hash that was recorded with it. */
export function hashHolds({ standing: _s, supersededBy: _b, about: _a, hash, ...entry }: ListedEntry): boolean {
  return sha256(canonical(entry)) === hash
}

/** To the second: entries follow one another quickly. */
const instant = (at: string): string => `${paperDay(at)} ${at.slice(11, 19)} UTC`

function standingOf(e: ListedEntry): Content {
  if (e.standing === 'stands') return { text: e.corrects === undefined ? 'stands' : `stands; corrects ${e.corrects}` }
  return { text: `${e.standing} by entry ${e.supersededBy ?? '?'}`, color: stop, bold: true }
}

function entryBlock(e: ListedEntry, nameOf: SubjectPaper['nameOf']): Content {
  const leaves = leavesOf(e.body)
  const struck = e.standing !== 'stands'
  return {
    stack: [
      {
        columns: [
          { text: `${e.seq}`, bold: true, width: 34 },
          { text: e.kind, bold: true, width: 92 },
          { text: instant(e.at), width: 118 },
          { text: nameOf(e.by) + (nameOf(e.by) === e.by ? '' : ` (${e.by})`), width: '*' },
          { ...(standingOf(e) as object), width: 'auto', alignment: 'right' } as Content,
        ],
        columnGap: 6,
        fontSize: 9.5,
      },
      ...(e.why === undefined ? [] : [{ text: `Why: ${e.why}`, fontSize: 9, margin: [40, 1, 0, 0] } as Content]),
      ...(e.clock === undefined
        ? []
        : [{ text: `The clock of the machine said ${e.clock}`, fontSize: 9, margin: [40, 1, 0, 0] } as Content]),
      {
        text: leaves.slice(0, mostFields).flatMap(([path, value], i): Content[] => [
          { text: `${i === 0 ? '' : '   '}${path} `, color: quiet },
          { text: String(value), ...(struck ? { decoration: 'lineThrough' as const } : {}) },
        ]),
        fontSize: 9,
        margin: [40, 1, 0, 0],
      },
      ...(leaves.length > mostFields
        ? [
            {
              text: `and ${leaves.length - mostFields} more fields, under the same hash`,
              style: 'small',
              margin: [40, 0, 0, 0],
            } as Content,
          ]
        : []),
      {
        text: `SHA-256 ${e.hash}   before it ${e.prev.slice(0, 16)}…`,
        fontSize: 7,
        color: quiet,
        margin: [40, 1, 0, 5],
      },
    ],
    unbreakable: leaves.length <= 60,
  }
}

function summary(p: SubjectPaper): Content[] {
  const { entries, nameOf } = p
  const broken = entries.filter((e) => !hashHolds(e))
  const changed = entries.filter((e) => e.standing !== 'stands').length
  return [
    { text: p.title, style: 'title' },
    factRow([
      ['Entries here', String(entries.length)],
      ['Corrected or withdrawn', String(changed)],
      ['From', paperDay(entries[0]?.at ?? '–')],
      ['To', paperDay(entries.at(-1)?.at ?? '–')],
    ]),
    factRow([['Recorded by', [...new Set(entries.map((e) => nameOf(e.by)))].join(', ') || '–']]),
    broken.length === 0
      ? {
          text: 'The hash of each entry was computed again when this was printed, and is the one recorded. That the chain is whole is shown by verifying the record against the head below.',
          style: 'small',
          margin: [0, 6, 0, 0],
        }
      : {
          text: `NOT AS RECORDED: the content of entry ${broken.map((e) => e.seq).join(', ')} does not have the hash recorded with it.`,
          bold: true,
          color: stop,
          margin: [0, 6, 0, 0],
        },
    ...(p.after === undefined ? [] : [{ text: `A part: entries after ${p.after}.`, bold: true } as Content]),
    ...(p.more === undefined
      ? []
      : [{ text: `More entries follow after entry ${p.more}, on the next part.`, bold: true, color: stop } as Content]),
  ]
}

function changesOf(p: SubjectPaper): Content[] {
  const changed = p.entries.filter((e) => e.corrects !== undefined || e.kind === 'entry.withdraw')
  if (changed.length === 0) return []
  return [
    heading('Corrections and withdrawals'),
    {
      table: {
        headerRows: 1,
        widths: ['auto', 'auto', '*', 'auto', 'auto'],
        body: [
          ['Entry', 'Instead of', 'Why', 'By', 'When'].map((text) => ({ text, style: 'th' })),
          ...changed.map((e) => [
            { text: String(e.seq), fontSize: 9 },
            { text: String(e.kind === 'entry.withdraw' ? e.body.entry : e.corrects), fontSize: 9 },
            { text: e.why ?? (e.kind === 'entry.withdraw' ? (e.body.note ?? '–') : '–'), fontSize: 9 },
            { text: p.nameOf(e.by), fontSize: 9 },
            { text: instant(e.at), fontSize: 9 },
          ]),
        ],
      },
      layout: ruled,
    },
  ]
}

const photosOf = (photos: readonly SubjectPhoto[]): Content[] =>
  photos.length === 0
    ? []
    : [
        heading('Photographs'),
        ...photos.map((f): Content => ({
          stack: [
            { image: `data:image/jpeg;base64,${Buffer.from(f.jpeg).toString('base64')}`, fit: [320, 240] },
            { text: `Entry ${f.seq}${f.caption === undefined ? '' : `: ${f.caption}`}`, style: 'small' },
          ],
          margin: [0, 0, 0, 8],
          unbreakable: true,
        })),
      ]

/** The record of one thing, entry by entry: who, when, what, its hash, and what became of it. */
export function subjectRecord(p: SubjectPaper): DocumentDefinition {
  return sheet(p, 'Record', [
    ...summary(p),
    ...changesOf(p),
    heading('Entries, in the order they were recorded'),
    ...(p.entries.length === 0 ? [{ text: 'None.' }] : p.entries.map((e) => entryBlock(e, p.nameOf))),
    ...photosOf(p.photos),
    signatures(['Printed by, date', 'Seen by, date'], contentWidth(p.size)),
  ])
}
