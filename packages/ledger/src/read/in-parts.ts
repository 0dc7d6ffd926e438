/** Codes asked for in one query: a database takes so many values at once, and looks each up by its index. */
const together = 400

/** The rows of a query asked for some codes at a time, in the order of `by` over all of them. Each code is asked for once. */
export async function inParts<T>(
  codes: readonly string[],
  query: (part: readonly string[]) => Promise<readonly T[]>,
  by?: (row: T) => number,
): Promise<T[]> {
  const asked = [...new Set(codes)]
  const rows: T[] = []
  for (let from = 0; from < asked.length; from += together)
    for (const row of await query(asked.slice(from, from + together))) rows.push(row)
  return by && asked.length > together ? rows.sort((a, b) => by(a) - by(b)) : rows
}
