import type uPlot from 'uplot'

/** Save what a plot shows as a PNG on its paper ground. */
export function savePicture(plot: uPlot, name: string): void {
  const from = plot.ctx.canvas
  const sheet = document.createElement('canvas')
  sheet.width = from.width
  sheet.height = from.height
  const ctx = sheet.getContext('2d')!
  ctx.fillStyle = '#fffdf9'
  ctx.fillRect(0, 0, sheet.width, sheet.height)
  ctx.drawImage(from, 0, 0)
  sheet.toBlob((blob) => {
    if (!blob) return
    const address = URL.createObjectURL(blob)
    const link = document.createElement('a')
    link.href = address
    link.download = name
    link.click()
    setTimeout(() => URL.revokeObjectURL(address), 10_000)
  }, 'image/png')
}
