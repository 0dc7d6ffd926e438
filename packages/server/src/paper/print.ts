import { createRequire } from 'node:module'
import { dirname, join, resolve } from 'node:path'
import pdfmake, { type DocumentDefinition } from 'pdfmake'

const require = createRequire(import.meta.url)
const folder = join(dirname(require.resolve('source-sans/package.json')), 'TTF')

/** The fonts in use: Source Sans 3 (OFL-1.1), which has every sign the paper prints. */
export const fontFiles = {
  normal: join(folder, 'SourceSans3-Regular.ttf'),
  bold: join(folder, 'SourceSans3-Bold.ttf'),
  italics: join(folder, 'SourceSans3-It.ttf'),
  bolditalics: join(folder, 'SourceSans3-BoldIt.ttf'),
} as const

pdfmake.setFonts({ SourceSans: { ...fontFiles } })
// Nothing in a document may fetch an address or open a file other than the fonts.
pdfmake.setUrlAccessPolicy(() => false)
const allowed = new Set<string>(Object.values(fontFiles))
pdfmake.setLocalAccessPolicy((path) => allowed.has(resolve(path)))

/** A document as PDF bytes. */
export const printPdf = async (definition: DocumentDefinition): Promise<Uint8Array<ArrayBuffer>> =>
  new Uint8Array(await pdfmake.createPdf(definition).getBuffer())
