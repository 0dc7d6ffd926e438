import { readLog } from '@forcemeat/craft/log/read'

/** The log of a centre as a browser opened it: its columns, and each as hours and °C. */
export type CentreFile = {
  readonly name: string
  readonly bytes: Blob
  readonly columns: readonly string[]
  /** What the reader could not make out; a file with any is not taken. */
  readonly trouble?: string
  readonly log: (column: string) => readonly { readonly hour: number; readonly centreC: number | null }[]
}

/** Largest file read here, bytes. */
const largest = 32_000_000

/** Reads a logger's file; of several temperatures one is then chosen as the centre. */
export async function openCentreFile(file: File): Promise<CentreFile> {
  const shared = { name: file.name, bytes: file as Blob }
  if (file.size === 0 || file.size > largest)
    return { ...shared, columns: [], trouble: `has ${file.size} bytes; allowed: 1 to ${largest} bytes`, log: () => [] }
  const data = new Uint8Array(await file.arrayBuffer())
  const first = readLog(data)
  const columns = (first.format?.channels ?? []).map((c) => c.name)
  // Which column is the centre is asked here; anything else open is not guessed.
  const open = first.questions.filter((q) => q.about !== 'roles')
  const trouble =
    columns.length === 0
      ? first.notes.join(' ') || open.map((q) => q.text).join(' ') || 'holds no column of temperatures'
      : open.length > 0
        ? open.map((q) => q.text).join(' ')
        : undefined
  return {
    ...shared,
    columns,
    ...(trouble === undefined ? {} : { trouble }),
    log: (column) =>
      readLog(data, { roles: { [column]: 'core' } })
        .channels.find((c) => c.name === column)
        ?.series.map((p) => ({ hour: p.minute / 60, centreC: p.tempC })) ?? [],
  }
}
