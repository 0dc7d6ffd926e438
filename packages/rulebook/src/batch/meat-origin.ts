import { findMaterial } from '@forcemeat/craft/materials/materials'
import type { BatchFacts } from './facts.ts'
import type { LotTreatment } from './slow-facts.ts'
import type { WeighedLine } from './weights.ts'

export const trichinellaSpecies = ['pork', 'wild-boar', 'bear', 'horse'] as const
export type TrichinellaSpecies = (typeof trichinellaSpecies)[number]

type Known = {
  readonly lot: string
  readonly material: string
  readonly documents?: readonly { readonly kind: string; readonly reference: string }[] | undefined
}

/** One lot as it came in at the door, behind a lot that was weighed in, with everything said of how it was made safe. */
export type MeatSource = {
  readonly lot: string
  readonly species: TrichinellaSpecies
  /** Treatments and papers, each with the last instant at which it may have ended to count for what was taken off the lot. */
  readonly treatments: readonly { readonly treatment: LotTreatment; readonly before?: string }[]
  readonly documents: NonNullable<Known['documents']>
  /** How it came from there to the batch, in words; empty where the lot itself was weighed in. */
  readonly through: readonly string[]
  /** Why nothing can be said of it. */
  readonly unknown?: string
}

export const trichinellaSpeciesOf = (material: string): TrichinellaSpecies | undefined => {
  const found = findMaterial(material)
  return trichinellaSpecies.find((s) => s === found?.species || s === found?.id)
}

/** Lots of a batch as weighed that are, or as rework may hold, meat that may carry Trichinella; a line without a lot stands with none. */
export function meatLots(facts: BatchFacts, lines: readonly WeighedLine[]) {
  return lines.flatMap((l) => {
    const species = trichinellaSpeciesOf(l.line.material)
    if (l.kg <= 0) return []
    const lots = l.parts.length > 0 ? l.parts.map((p) => p.lot) : [l.line.lot]
    return [...new Set(lots)].flatMap((lot) => {
      const comesFrom = facts.lots.find((x) => x.lot === lot)?.origin
      return species === undefined && comesFrom === undefined ? [] : [{ lot, material: l.line.material, species }]
    })
  })
}

const lastDay = (day: string): string => `${day}T23:59:59.999Z`
const sooner = (a: string | undefined, b: string): string => (a !== undefined && a < b ? a : b)

/**
 * Follow a lot back to the lots it was split off and, where it is rework, to every lot of its batch that may carry Trichinella. A treatment of
 * the larger lot counts for a part only where it ended before the part was taken off; a part's own treatment counts for it alone.
 */
export function sourcesOf(facts: BatchFacts, lot: string, species: TrichinellaSpecies | undefined): MeatSource[] {
  type Node = Known & { readonly on: string; readonly origin?: BatchFacts['lots'][number]['origin'] }
  const known = new Map<string, Node>(
    [...(facts.ancestry?.lots ?? []), ...facts.lots].map((l) => [l.lot, l as Node] as const),
  )
  const batches = new Map((facts.ancestry?.batches ?? []).map((b) => [b.batch, b]))
  const follow = (
    code: string,
    kind: TrichinellaSpecies | undefined,
    before: string | undefined,
    gathered: Pick<MeatSource, 'treatments' | 'documents' | 'through'>,
    seen: ReadonlySet<string>,
  ): MeatSource[] => {
    const node = known.get(code)
    const own = (facts.treatments ?? [])
      .filter((t) => t.lot === code)
      .map((treatment) => ({ treatment, ...(before === undefined ? {} : { before }) }))
    const now = {
      treatments: [...gathered.treatments, ...own],
      documents: [...gathered.documents, ...(node?.documents ?? [])],
      through: gathered.through,
    }
    // Of what is not known it is not known either that it is no pork.
    const end = (unknown?: string): MeatSource[] =>
      unknown !== undefined
        ? [{ lot: code, species: kind ?? 'pork', ...now, unknown }]
        : kind === undefined
          ? []
          : [{ lot: code, species: kind, ...now }]
    if (!node) return end(`lot ${code} is not in the record`)
    if (!node.origin || seen.has(code)) return end()
    const on = new Set([...seen, code])
    if ('lot' in node.origin)
      return follow(
        node.origin.lot,
        kind,
        sooner(before, lastDay(node.on)),
        { ...now, through: [`${code} was taken off ${node.origin.lot}`, ...now.through] },
        on,
      )
    const made = batches.get(node.origin.batch)
    if (!made) return end(`what batch ${node.origin.batch} was made of is not known`)
    if (made.lots.length === 0) return end(`no lot of meat is recorded for batch ${made.batch}`)
    const inside = made.lots.flatMap((within) =>
      follow(
        within,
        trichinellaSpeciesOf(known.get(within)?.material ?? ''),
        sooner(before, lastDay(made.on)),
        { ...now, through: [`${code} is rework of ${made.batch}`, ...now.through] },
        on,
      ),
    )
    // Cooked through before it came back: its own findings answer for that.
    const unknown = `${code} is rework of ${made.batch}, a cooked batch: whether its cook was proven is judged there`
    return made.kind === 'cooked' ? inside.map((s) => ({ ...s, unknown })) : inside
  }
  return follow(lot, species, undefined, { treatments: [], documents: [], through: [] }, new Set())
}
