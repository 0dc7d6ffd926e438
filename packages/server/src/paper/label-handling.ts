import { framed, paragraph, stack, type Block, type Box } from './label-blocks.ts'
import { lineMm, plain } from './label-text.ts'

/** First line of the prescribed instructions, by which they are found among the lines on handling. */
export const HANDLING_HEADING = 'Safe Handling Instructions'
const WHAT = 'safe handling instructions'

const drawn = (inner: string): string =>
  `<g fill="none" stroke="#000000" stroke-width="1.5" stroke-linecap="round" stroke-linejoin="round">${inner}</g>`

/** Pictures beside the four statements, drawn here: refrigerator, hands under a tap, skillet, thermometer above a pan. */
const pictures: readonly string[] = [
  drawn(
    '<rect x="5.5" y="1.5" width="13" height="20" rx="1.2"/><path d="M5.5 8.5H18.5M8.5 4V6M8.5 11.5V15.5M7.5 21.5V23M16.5 21.5V23"/>',
  ),
  drawn(
    '<path d="M1.5 2.5H9.5A5 5 0 0 1 14.5 7.5V9H11V8A2 2 0 0 0 9 6H1.5ZM5.5 2.5V0.8M3.5 0.8H7.5M12.8 10.8V13"/><path d="M1.5 15.5H5.5C7.5 14.3 9.5 14.3 11.5 15.2H18.5C20.3 15.2 20.3 17.8 18.5 17.8H13M1.5 22H6C10 22.6 14 22.6 16.5 21.2L22.3 17.6C22 15.6 20.8 15.8 19.6 16.4"/><circle cx="17.5" cy="11.5" r="1.3"/><circle cx="20.8" cy="8.6" r="1"/><circle cx="8" cy="11.2" r="0.9"/>',
  ),
  drawn(
    '<path d="M1.5 12.5H15.5V15A3.5 3.5 0 0 1 12 18.5H5A3.5 3.5 0 0 1 1.5 15ZM15.5 14H22.5"/><path d="M5 10C4 8.5 6 7.5 5 6M8.5 10C7.5 8.5 9.5 7.5 8.5 6M12 10C11 8.5 13 7.5 12 6"/>',
  ),
  drawn(
    '<path d="M1.5 16H15.5V18.5A3.5 3.5 0 0 1 12 22H5A3.5 3.5 0 0 1 1.5 18.5ZM15.5 17.5H22.5"/><path d="M7 10.2V2.8A1.5 1.5 0 0 1 10 2.8V10.2A2.4 2.4 0 1 1 7 10.2ZM8.5 5V11"/><path d="M12 4H13.5M12 6.5H13.5M12 9H13.5"/>',
  ),
]
const PICTURE_MM = 7.5
const BESIDE_MM = 1.5

/** A statement with its picture to the left. */
const withPicture = (text: string, picture: string, sizePt: number): Block => {
  const words = paragraph(WHAT, plain(text), sizePt)
  const off = PICTURE_MM + BESIDE_MM
  return {
    what: WHAT,
    least: words.least + off,
    place: (x, width, top) => {
      const placed = words.place(x + off, width - off, top)
      const high = Math.max(PICTURE_MM, placed.height)
      const dy = (high - placed.height) / 2
      const art: Box = { kind: 'art', x, y: top + (high - PICTURE_MM) / 2, mm: PICTURE_MM, svg: picture }
      return {
        boxes: [art, ...words.place(x + off, width - off, top + dy).boxes],
        height: high,
        tooWide: placed.tooWide,
      }
    },
  }
}

/** The instructions in their border: heading larger than the rest, why, and four statements each beside its picture. */
export function handlingPanel(lines: readonly string[], sizePt: number): Block {
  const [heading, why, ...statements] = lines
  return framed(
    stack(
      WHAT,
      [
        paragraph(`${WHAT}: heading`, plain(heading!, true), sizePt * 1.3),
        ...(why === undefined ? [] : [paragraph(WHAT, plain(why), sizePt)]),
        ...statements.map((s, i) => withPicture(s, pictures[i] ?? '', sizePt)),
      ],
      lineMm(sizePt) * 0.15,
    ),
    0.4,
    1.2,
  )
}

/** The prescribed instructions apart from the maker's own lines. */
export function partHandling(lines: readonly string[]): { prescribed: readonly string[]; own: readonly string[] } {
  const at = lines.indexOf(HANDLING_HEADING)
  if (at < 0) return { prescribed: [], own: lines }
  const end = at + 2 + pictures.length
  return { prescribed: lines.slice(at, end), own: [...lines.slice(0, at), ...lines.slice(end)] }
}
