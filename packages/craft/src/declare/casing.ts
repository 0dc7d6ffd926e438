import type { IngredientsInput } from './ingredients-schema.ts'

type Casing = NonNullable<IngredientsInput['casing']>
type CasingKind = NonNullable<Casing['kind']>

/** What is known of a casing: what it is and of which animal. */
export type CasingKnown = { readonly edible: boolean; readonly kind?: CasingKind; readonly species?: string }

const animals: Readonly<Record<string, RegExp>> = {
  pork: /\b(?:pork|hog|pig|swine|porcine|chitterling)s?\b/i,
  lamb: /\b(?:sheep|lamb|ovine)s?\b/i,
  beef: /\b(?:beef|ox|cattle|bovine|bung|runner)s?\b/i,
  goat: /\bgoat\b/i,
}

/** A casing from what is said of it, and from its name where that says more: "beef collagen casing", "sheep casing". */
export function casingKnown(casing: Casing): CasingKnown {
  const name = casing.name ?? ''
  const species = casing.species ?? Object.keys(animals).find((a) => animals[a]!.test(name))
  const kind =
    casing.kind ??
    (/collagen/i.test(name)
      ? 'collagen'
      : /cellulos|fibrous/i.test(name)
        ? 'cellulose'
        : /plastic|polyamid/i.test(name)
          ? 'plastic'
          : /natural/i.test(name) || species !== undefined
            ? 'natural'
            : undefined)
  return {
    edible: casing.edible,
    ...(kind === undefined ? {} : { kind }),
    ...(species === undefined ? {} : { species }),
  }
}

/** The line a casing asks for: that it cannot be eaten, or of what it is where the meat in it is of another animal. */
export function casingLine(casing: Casing, meats: readonly string[]): string | undefined {
  if (!casing.edible) return `${casing.name ?? 'casing'} not edible`
  const { kind, species } = casingKnown(casing)
  if (kind !== 'natural' && kind !== 'collagen') return undefined
  if (species !== undefined && (meats.length === 0 || meats.includes(species))) return undefined
  const of = species === undefined ? kind : kind === 'collagen' ? `${species} collagen` : species
  return `packed in ${of} casing`
}
