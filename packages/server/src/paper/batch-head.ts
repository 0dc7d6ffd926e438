import type { Verdict } from '@forcemeat/craft/finding'
import type { Content } from 'pdfmake'
import { paperDay } from './dates.ts'
import { mark } from './findings-table.ts'
import { factRow, type Frame } from './frame.ts'

/** A paper that is the record of one batch. */
export type OfBatch = Frame & {
  readonly recipe: { readonly name: string; readonly code: string; readonly version: number }
  /** Day it was made. */
  readonly on: string
  readonly jurisdictions: readonly string[]
}

/** What batch of what recipe a record is of, and which places it was judged for. */
export const batchHead = (r: OfBatch): Content[] => [
  {
    columns: [
      { text: r.recipe.name, style: 'title', width: '*' },
      { text: r.batch, style: 'title', width: 'auto', alignment: 'right' },
    ],
    columnGap: 12,
  },
  factRow([
    ['Made on', paperDay(r.on)],
    ['Recipe', `${r.recipe.code}, version ${r.recipe.version}`],
    ['Judged for', r.jurisdictions.join(', ')],
  ]),
]

/** A verdict as its mark, with what it means beside it. */
export const verdictRow = (verdict: Verdict, words: string): Content => ({
  margin: [0, 10, 0, 0],
  columns: [
    { ...(mark(verdict, 18) as object), width: 'auto' },
    { text: words, margin: [0, 5, 0, 0] },
  ],
  columnGap: 10,
})
