import { MM_PER_PT, widthMm } from './label-font.ts'

export type Run = { readonly text: string; readonly bold: boolean }
export type Word = { readonly runs: readonly Run[]; readonly width: number }

const LEADING = 1.15
export const lineMm = (sizePt: number): number => sizePt * MM_PER_PT * LEADING
/** Baseline of a line from its top: room for capitals and accents above it. */
export const ascentOf = (sizePt: number): number => sizePt * MM_PER_PT * 0.9
export const plain = (text: string, bold = false): Run[] => [{ text, bold }]

/** Words, each of one or more runs, so that a word half of which is set off is not torn. */
export function wordsOf(runs: readonly Run[], sizePt: number): Word[] {
  const words: Run[][] = [[]]
  for (const run of runs)
    // A space that must not break keeps a figure with its unit.
    for (const [i, part] of run.text.split(/[^\S\u00A0]+/).entries()) {
      if (i > 0) words.push([])
      if (part !== '') words.at(-1)!.push({ text: part, bold: run.bold })
    }
  return words
    .filter((w) => w.length > 0)
    .map((w) => ({ runs: w, width: w.reduce((s, r) => s + widthMm(r.text, sizePt, r.bold), 0) }))
}

export function linesOf(words: readonly Word[], width: number, space: number): Word[][] {
  const lines: Word[][] = []
  let at = 0
  for (const w of words) {
    const line = lines.at(-1)
    if (line && at + space + w.width <= width + 1e-9) {
      line.push(w)
      at += space + w.width
    } else {
      lines.push([w])
      at = w.width
    }
  }
  return lines
}

/** Runs of a line with the spaces between its words, neighbours of one weight put together. */
export const joined = (line: readonly Word[]): Run[] =>
  line
    .flatMap((w, i) => w.runs.map((r, j) => ({ ...r, text: i > 0 && j === 0 ? ` ${r.text}` : r.text })))
    .reduce<Run[]>((done, r) => {
      const last = done.at(-1)
      return last?.bold === r.bold ? [...done.slice(0, -1), { ...last, text: last.text + r.text }] : [...done, r]
    }, [])

/** The wider of the two spaces, so that a line never comes out longer than it was reckoned. */
export const spaceMm = (sizePt: number): number => Math.max(widthMm(' ', sizePt, false), widthMm(' ', sizePt, true))
