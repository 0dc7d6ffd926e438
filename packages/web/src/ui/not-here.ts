import type { Fault } from '@forcemeat/craft/calculation'

type Listed = { readonly says: string; readonly page: string; readonly link: string }

/** What there is of a kind, and the page that lists it. */
const kinds: Readonly<Record<string, Listed>> = {
  batch: { says: 'no batch', page: '/batches', link: 'See all batches' },
  lot: { says: 'no lot', page: '/stock', link: 'See the stock' },
  pack: { says: 'no pack', page: '/batches', link: 'See all batches, and their packs' },
  recipe: { says: 'no recipe', page: '/recipes', link: 'See all recipes' },
  'version of this recipe': { says: 'no such version', page: '/recipes', link: 'See all recipes' },
  'recipe or version': { says: 'no recipe or version', page: '/recipes', link: 'See all recipes' },
  instrument: { says: 'no instrument', page: '/instruments', link: 'See all instruments' },
  person: { says: 'no person', page: '/people', link: 'See the people' },
  deviation: { says: 'no deviation', page: '/record/deviations', link: 'See all deviations' },
  rule: { says: 'no rule', page: '/rules', link: 'See all rules' },
  material: { says: 'no material', page: '/recipes', link: 'See the recipes' },
  calculation: { says: 'no calculation', page: '/reference', link: 'See all calculations' },
  entry: { says: 'no entry', page: '/record', link: 'See the record' },
  room: { says: 'no room', page: '/plan/rooms', link: 'See all rooms' },
  order: { says: 'no order', page: '/plan/orders', link: 'See all orders' },
  label: { says: 'no label', page: '/labels', link: 'See all labels' },
}

/** A thing the record does not have, in plain words, with the page that lists those it has; undefined where the fault is another. */
export function notHereWords(
  status: number,
  { path, message }: Fault,
): { said: string; page: string; link: string } | undefined {
  const kind = Object.hasOwn(kinds, path) ? kinds[path] : undefined
  const asked = /^("(?:[^"\\]|\\.)*") is not here/.exec(message)?.[1]
  if (status !== 404 || !kind || asked === undefined) return undefined
  return { said: `The record has ${kind.says} called ${String(JSON.parse(asked))}.`, page: kind.page, link: kind.link }
}
