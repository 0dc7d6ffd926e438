import type { PlotPicture } from './model.ts'
import { plotSvg, type SvgSize } from './svg.ts'

function save(blob: Blob, name: string): void {
  const link = document.createElement('a')
  link.href = URL.createObjectURL(blob)
  link.download = name
  link.click()
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000)
}

const fileName = (name: string): string => name.replaceAll(/[^\p{L}\p{N} ._-]/gu, '-').slice(0, 120)

/** Save what a plot shows as SVG, drawn anew from its data. */
export function saveSvg(picture: PlotPicture, size: SvgSize): void {
  save(new Blob([plotSvg(picture, size)], { type: 'image/svg+xml' }), `${fileName(picture.title)}.svg`)
}

/** Save the same drawing as PNG, two dots a point. */
export async function savePng(picture: PlotPicture, size: SvgSize): Promise<void> {
  const drawing = URL.createObjectURL(new Blob([plotSvg(picture, size)], { type: 'image/svg+xml' }))
  try {
    const image = new Image()
    image.src = drawing
    await image.decode()
    const sheet = document.createElement('canvas')
    sheet.width = 2 * size.width
    sheet.height = 2 * size.height
    sheet.getContext('2d')!.drawImage(image, 0, 0, sheet.width, sheet.height)
    const blob = await new Promise<Blob | null>((made) => sheet.toBlob(made, 'image/png'))
    if (blob) save(blob, `${fileName(picture.title)}.png`)
  } finally {
    URL.revokeObjectURL(drawing)
  }
}
