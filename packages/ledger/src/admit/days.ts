import type { Admission } from './report.ts'

type Asked = Pick<Admission, 'sql' | 'fault'>

/** A batch may be made the day before it was planned for; then its plan still says the later day. */
const dayBefore = (day: string): string => new Date(Date.parse(day) - 86_400_000).toISOString().slice(0, 10)

const notBefore = ({ fault }: Asked, path: string, on: string, first: string, what: string): void => {
  if (on < first) fault(path, `is ${on}, before ${what}; allowed: ${first} or later, or that day corrected first`)
}

/** Nothing comes out of a batch before it is made. */
export async function afterBatch(a: Asked, path: string, batch: string, on: string): Promise<void> {
  const [row] = await a.sql.all<{ day: string }>('select day from batch where batch = ?', [batch])
  if (row) notBefore(a, path, on, dayBefore(row.day), `batch ${batch} is made (${row.day})`)
}

/** Nothing is taken from a lot, or counted in it, before it came to be. */
export async function afterLot(a: Asked, path: string, lot: string, on: string): Promise<void> {
  const [row] = await a.sql.all<{ received: string }>('select received from lot where lot = ?', [lot])
  if (row) notBefore(a, path, on, row.received, `lot ${lot} came in or was made`)
}

/** Nothing is sent before it is packed. */
export async function afterPack(a: Asked, path: string, pack: string, on: string): Promise<void> {
  const [row] = await a.sql.all<{ day: string }>('select day from pack where pack = ?', [pack])
  if (row) notBefore(a, path, on, row.day, `pack ${pack} was packed`)
}

/** What went into a batch was there on its day. */
export async function lotWasThere(a: Asked, path: string, lot: string, batch: string): Promise<void> {
  const [row] = await a.sql.all<{ day: string; received: string }>(
    'select b.day, l.received from batch b, lot l where b.batch = ? and l.lot = ?',
    [batch, lot],
  )
  if (row && dayBefore(row.received) > row.day)
    a.fault(
      path,
      `takes from lot ${lot}, which came in or was made on ${row.received}, and batch ${batch} is of ${row.day}; allowed: a lot there by then, or the wrong day corrected first`,
    )
}
