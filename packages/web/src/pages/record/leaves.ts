export type Leaf = string | number | boolean

/** Every plain value of a fact with its path, e.g. ["lines[0].targetKg", 4.2]. */
export function leavesOf(value: unknown, path = ''): [string, Leaf][] {
  if (value === null || value === undefined) return []
  if (Array.isArray(value)) return value.flatMap((v, i) => leavesOf(v, `${path}[${i}]`))
  if (typeof value === 'object')
    return Object.entries(value).flatMap(([k, v]) => leavesOf(v, path ? `${path}.${k}` : k))
  return [[path, value as Leaf]]
}

const steps = (path: string): (string | number)[] =>
  [...path.matchAll(/([^.[\]]+)|\[(\d+)\]/g)].map((m) => (m[2] === undefined ? m[1]! : Number(m[2])))

/** A copy of `body` with the value at `path` set; `undefined` takes the field out. */
export function withLeaf(
  body: Record<string, unknown>,
  path: string,
  value: Leaf | undefined,
): Record<string, unknown> {
  const copy = structuredClone(body)
  const way = steps(path)
  const last = way.pop()!
  let at: Record<string | number, unknown> = copy
  for (const step of way) at = at[step] as Record<string | number, unknown>
  if (value === undefined) delete at[last]
  else at[last] = value
  return copy
}
