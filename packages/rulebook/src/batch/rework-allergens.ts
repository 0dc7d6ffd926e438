import { findMaterial } from '@forcemeat/craft/materials/materials'
import type { Finding } from '../rule.ts'
import type { BatchFacts } from './facts.ts'
import { recordFinding } from './own-rules.ts'
import { reworkOf } from './rework-of.ts'
import type { WeighedLine } from './weights.ts'

type Origin = NonNullable<BatchFacts['lots'][number]['origin']>
type Node = { readonly material: string; readonly origin?: Origin | undefined }

/** What a lot brings: allergens with where each comes from, what nobody can know, and what a typed list left out. */
type Brought = {
  readonly allergens: Map<string, string>
  readonly unknown: Set<string>
  readonly leftOut: Set<string>
  readonly batches: Set<string>
}

/**
 * Follows a lot back through splits and batches to every material that went in. The allergens typed with a lot of rework only add to
 * those of its lines: a list that lacks one does not take it away.
 */
function broughtBy(lot: string, facts: BatchFacts, known: ReadonlyMap<string, Node>): Brought {
  const made = new Map((facts.ancestry?.batches ?? []).map((b) => [b.batch, b]))
  const found: Brought = { allergens: new Map(), unknown: new Set(), leftOut: new Set(), batches: new Set() }
  const add = (allergen: string, from: string): void => {
    if (!found.allergens.has(allergen)) found.allergens.set(allergen, from)
  }
  const fromMaterial = (id: string, where: string): string[] => {
    const material = findMaterial(id)
    if (!material) found.unknown.add(`${id} in ${where} is in no table of materials`)
    const allergens = [...(material?.allergens ?? [])]
    for (const a of allergens) add(a, `${id} in ${where}`)
    return allergens
  }
  const seen = new Set<string>()
  const follow = (code: string, where: string): string[] => {
    if (seen.has(code)) return []
    seen.add(code)
    const node = known.get(code)
    if (!node) {
      found.unknown.add(`lot ${code} in ${where} is not in the record`)
      return []
    }
    const own = fromMaterial(node.material, code === lot ? code : where)
    if (!node.origin) return own
    if ('lot' in node.origin) return [...own, ...follow(node.origin.lot, where)]
    const { batch, allergens: typed } = node.origin
    found.batches.add(batch)
    for (const a of typed ?? []) add(a, `the entry of ${code}`)
    const origin = made.get(batch)
    const materials = origin?.materials ?? []
    if (!origin || (materials.length === 0 && origin.lots.length === 0)) {
      found.unknown.add(`the lines of batch ${batch} are not known`)
      return [...own, ...(typed ?? [])]
    }
    const inside = [
      ...materials.flatMap((m) => fromMaterial(m, batch)),
      ...origin.lots.flatMap((l) => follow(l, batch)),
    ]
    if (typed !== undefined)
      for (const a of inside) if (!typed.includes(a)) found.leftOut.add(`${a}, which the entry of ${code} leaves out`)
    return [...own, ...inside, ...(typed ?? [])]
  }
  follow(lot, lot)
  return found
}

/** Rework weighed in brings no allergen that the batch has not from its other lines. Nothing where no rework was used. */
export function judgeRework(facts: BatchFacts, lines: readonly WeighedLine[]): Finding[] {
  const known = new Map<string, Node>([...(facts.ancestry?.lots ?? []), ...facts.lots].map((l) => [l.lot, l]))
  const used = lines.flatMap((l) =>
    (l.parts.length > 0 ? l.parts.map((p) => p.lot) : [l.line.lot]).map((lot) => ({ lot, line: l.line })),
  )
  const found = new Map([...reworkOf(facts)].filter(([lot]) => used.some((u) => u.lot === lot)))
  if (found.size === 0) return []
  const rework = [...found.keys()]
  const own = new Set<string>(
    used
      .filter((u) => u.lot === undefined || !found.has(u.lot))
      .flatMap((u) => findMaterial(u.line.material)?.allergens ?? []),
  )
  const brought = [...found].map(([lot, of]) => ({
    lot,
    out: `${of.of === undefined ? '' : `of ${of.of}, `}out of ${of.batch}`,
    ...broughtBy(lot, facts, known),
  }))
  const left = [...new Set(brought.flatMap((b) => [...b.leftOut]))]
  const said = left.length > 0 ? `. The lines hold ${left.join('; ')}` : ''
  const strange = brought.flatMap((b) =>
    [...b.allergens].filter(([a]) => !own.has(a)).map(([a, from]) => `${a} by ${b.lot} (${b.out}), from ${from}`),
  )
  if (strange.length > 0)
    return [
      recordFinding('rework', { verdict: 'fail', because: `brought in by rework alone: ${strange.join('; ')}${said}` }),
    ]
  const unknown = [...new Set(brought.flatMap((b) => [...b.unknown]))]
  if (unknown.length > 0)
    return [
      recordFinding('rework', {
        verdict: 'cannot-tell',
        because: `the allergens of ${rework.join(', ')} cannot be reckoned: ${unknown.join('; ')}${said}`,
        settle: 'record what was weighed into the batch the rework came out of, of materials the table has',
      }),
    ]
  return [
    recordFinding('rework', {
      verdict: 'pass',
      because: `${rework.join(', ')}: no allergen that is not in the batch, by what was weighed into ${[...new Set(brought.flatMap((b) => [...b.batches]))].join(', ')}${said}`,
    }),
  ]
}
