import type { Finding } from '../rule.ts'

export type FindingChange = {
  readonly rule: string
  readonly title: string
  readonly jurisdiction: string
  readonly before?: Finding
  readonly after?: Finding
  /** True where the verdict is another, or only one of the two has the finding. */
  readonly turned: boolean
}

/** Findings of two versions side by side by rule and place; those whose verdict turned first, those that did not move at all left out. */
export function compareFindings(before: readonly Finding[], after: readonly Finding[]): FindingChange[] {
  const keyOf = (f: Finding): string => `${f.rule} ${f.jurisdiction}`
  const [a, b] = [before, after].map((list) => new Map(list.map((f) => [keyOf(f), f])))
  return [...new Set([...a!.keys(), ...b!.keys()])]
    .flatMap((key): FindingChange[] => {
      const [was, is] = [a!.get(key), b!.get(key)]
      const { rule, title, jurisdiction } = (is ?? was)!
      const turned = was?.verdict !== is?.verdict
      if (!turned && was?.because === is?.because) return []
      return [{ rule, title, jurisdiction, turned, ...(was ? { before: was } : {}), ...(is ? { after: is } : {}) }]
    })
    .toSorted((x, y) => Number(y.turned) - Number(x.turned))
}
