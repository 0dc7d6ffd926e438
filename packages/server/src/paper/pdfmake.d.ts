/** The part of pdfmake that the paper uses; the package brings no types of its own. */
declare module 'pdfmake' {
  export type Content = string | readonly Content[] | { readonly [property: string]: unknown }
  export type DocumentDefinition = {
    readonly content: Content
    readonly [property: string]: unknown
  }
  const pdfmake: {
    setFonts(fonts: Record<string, Record<string, string>>): void
    setUrlAccessPolicy(allow: (url: string) => boolean): void
    setLocalAccessPolicy(allow: (path: string) => boolean): void
    createPdf(definition: DocumentDefinition): { getBuffer(): Promise<Buffer> }
  }
  export default pdfmake
}
