import type { DrawnCodeSize } from '@forcemeat/craft/declare/label/drawn'
import type { LabelOutput } from '@forcemeat/craft/declare/label/schema'
import { figures } from '@forcemeat/craft/rules'
import { toSVG } from 'bwip-js/node'

type Code = NonNullable<LabelOutput['code']>
export type DrawnCode = {
  readonly what: string
  /** What a person reads of it. */
  readonly text: string
  /** Width and height on the label with the quiet zone, mm. */
  readonly width: number
  readonly height: number
  /** White added around the symbol, mm. */
  /** From the left of it to its first bar, and from its top to the end of its short bars. */
  readonly bars: { readonly x: number; readonly y: number }
  readonly quiet: { readonly left: number; readonly right: number; readonly y: number }
  readonly svg: string
  readonly viewBox: readonly [number, number]
  /** What was measured on the drawing itself. */
  readonly size: DrawnCodeSize
}

const bcid = { 'gs1-128': 'gs1-128', 'gs1-datamatrix': 'gs1datamatrix', 'ean-13': 'ean13' } as const
/** Units of the drawing in a module. */
const unitsPerModule = { 'gs1-128': 1, 'gs1-datamatrix': 2, 'ean-13': 1 } as const
const MM_PER_INCH = 25.4

/** Where the ink of a symbol begins and ends, and the height of its shortest bars, in units of the drawing. */
function inkOf(svg: string, width: number): { left: number; right: number; bar?: number; longest?: number } {
  const bars = [...svg.matchAll(/stroke-width="([\d.]+)" d="([^"]*)"/g)].flatMap(([, stroke, d]) =>
    [...d!.matchAll(/M([\d.]+) ([\d.]+)L[\d.]+ ([\d.]+)/g)].map((m) => ({
      from: Number(m[1]) - Number(stroke) / 2,
      to: Number(m[1]) + Number(stroke) / 2,
      high: Math.abs(Number(m[2]) - Number(m[3])),
    })),
  )
  if (bars.length === 0) return { left: 0, right: width }
  return {
    left: Math.min(...bars.map((b) => b.from)),
    right: Math.max(...bars.map((b) => b.to)),
    bar: Math.min(...bars.map((b) => b.high)),
    longest: Math.max(...bars.map((b) => b.high)),
  }
}

/** A bar code as vector drawing, sized by its modules, with the white the standard asks for. */
export function drawCode(code: Code, askedModuleMm?: number): DrawnCode {
  const type = figures('labelDrawn').codes[code.kind]
  const moduleMm = askedModuleMm ?? type.usualModuleMm
  const unitMm = moduleMm / unitsPerModule[code.kind]
  const flat = type.usualBarMm !== undefined
  const whole = toSVG({
    bcid: bcid[code.kind],
    text: code.text,
    scale: 1,
    // With its figures an EAN-13 gets its longer guard bars; the figures themselves are set in the type of the label.
    includetext: code.kind === 'ean-13',
    ...(type.usualBarMm === undefined ? {} : { height: ((type.usualBarMm / moduleMm) * MM_PER_INCH) / 72 }),
  })
  const svg = flat ? whole.replaceAll(/<path d="[^"]*" fill="[^"]*" \/>/g, '') : whole
  const [, w, full] = /viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(svg)!.map(Number) as [number, number, number]
  const ink = inkOf(svg, w)
  const h = ink.longest ?? full
  const left = Math.max(0, type.quietLeft * moduleMm - ink.left * unitMm)
  const right = Math.max(0, type.quietRight * moduleMm - (w - ink.right) * unitMm)
  const y = flat ? 0.5 : type.quietLeft * moduleMm
  const width = w * unitMm + left + right
  return {
    what: `bar code ${code.kind}`,
    text: code.text,
    width,
    height: h * unitMm + 2 * y,
    bars: { x: left + ink.left * unitMm, y: y + (ink.bar ?? h) * unitMm },
    quiet: { left, right, y },
    svg: svg.slice(svg.indexOf('>') + 1, svg.lastIndexOf('</svg>')),
    viewBox: [w, h],
    size: {
      kind: code.kind,
      moduleMm,
      ...(ink.bar === undefined ? {} : { barMm: ink.bar * unitMm }),
      quietLeft: (left + ink.left * unitMm) / moduleMm,
      quietRight: (right + (w - ink.right) * unitMm) / moduleMm,
      widthMm: width,
      characters: code.encoded.length,
    },
  }
}
