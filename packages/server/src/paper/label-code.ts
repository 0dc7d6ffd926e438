import type { LabelOutput } from '@forcemeat/craft/declare/label/schema'
import { toSVG } from 'bwip-js/node'

type Code = NonNullable<LabelOutput['code']>
export type DrawnCode = {
  readonly what: string
  /** Width and height on the label with the quiet zone, mm. */
  readonly width: number
  readonly height: number
  readonly quiet: { readonly x: number; readonly y: number }
  readonly svg: string
  readonly viewBox: readonly [number, number]
}

/**
 * How each code is drawn: width of a module, height of the bars and quiet zone in modules, by the General Specifications of GS1 from memory;
 * a scanner at the bench is the check.
 */
const ways = {
  'gs1-128': { bcid: 'gs1-128', moduleMm: 0.3, perModule: 1, barMm: 13, quiet: 10, text: true },
  'gs1-datamatrix': { bcid: 'gs1datamatrix', moduleMm: 0.5, perModule: 2, barMm: undefined, quiet: 2, text: false },
  'ean-13': { bcid: 'ean13', moduleMm: 0.33, perModule: 1, barMm: 20, quiet: 11, text: true },
} as const

/** A bar code as vector drawing, sized by its modules. */
export function drawCode(code: Code): DrawnCode {
  const { bcid, moduleMm, perModule, barMm, quiet, text } = ways[code.kind]
  const unitMm = moduleMm / perModule
  const svg = toSVG({
    bcid,
    text: code.text,
    scale: 1,
    includetext: text,
    ...(barMm === undefined ? {} : { height: (barMm / moduleMm / 72) * 25.4 }),
  })
  const [, w, h] = /viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(svg)!.map(Number) as [number, number, number]
  const inner = svg.slice(svg.indexOf('>') + 1, svg.lastIndexOf('</svg>'))
  const zone = quiet * moduleMm
  return {
    what: `bar code ${code.kind}`,
    width: w * unitMm + 2 * zone,
    height: h * unitMm + (bcid === 'gs1datamatrix' ? 2 * zone : 1),
    quiet: { x: zone, y: bcid === 'gs1datamatrix' ? zone : 0.5 },
    svg: inner,
    viewBox: [w, h],
  }
}
