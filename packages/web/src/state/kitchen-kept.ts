import type { KitchenView } from './views.ts'

type Kitchen = NonNullable<KitchenView['kitchen']>

/** Everything the kitchen's own entry may hold. */
const facts = [
  'name',
  'place',
  'altitudeM',
  'jurisdictions',
  'units',
  'timeZone',
  'timeZone',
  'demo',
  'address',
  'approval',
  'secondPerson',
  'ownLimits',
] as const

/** The kitchen's entry as it stands, to be told again with one thing changed. */
export const keptOf = (kitchen: Kitchen): Record<string, unknown> =>
  Object.fromEntries(facts.flatMap((f) => (kitchen[f] === undefined ? [] : [[f, kitchen[f]]])))
