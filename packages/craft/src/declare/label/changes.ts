export type LabelField = { readonly field: string; readonly text: string; readonly varies?: boolean | undefined }
export type LabelChange = { readonly field: string; readonly before?: string; readonly now?: string }

/** What differs between two labels, field by field; what varies from batch to batch by itself is left out. */
export function labelChanges(before: readonly LabelField[], now: readonly LabelField[]): LabelChange[] {
  const lasting = (fields: readonly LabelField[]) =>
    new Map(fields.filter((f) => f.varies !== true).map((f) => [f.field, f.text]))
  const [was, is] = [lasting(before), lasting(now)]
  return [...new Set([...was.keys(), ...is.keys()])].flatMap((field) => {
    const [a, b] = [was.get(field), is.get(field)]
    if (a === b) return []
    return [{ field, ...(a === undefined ? {} : { before: a }), ...(b === undefined ? {} : { now: b }) }]
  })
}
