import type { EntryView, KitchenView } from '../../state/views.ts'
import { measured } from '../../ui/figures.ts'

const named = ['batch', 'pack', 'lot', 'recipe', 'instrument', 'person'] as const

/** What an entry is about, in a few words. */
export function aboutOf(entry: Pick<EntryView, 'kind' | 'body'>): string {
  const b = entry.body
  if (entry.kind === 'kitchen.set') return typeof b['name'] === 'string' ? b['name'] : ''
  if (entry.kind === 'entry.withdraw') return `entry ${String(b['entry'])}`
  const key = named.find((k) => typeof b[k] === 'string')
  const head = key ? `${key} ${String(b[key])}` : ''
  const line = typeof b['line'] === 'string' ? `, line ${b['line']}` : ''
  const kg = typeof b['kg'] === 'number' ? `, ${measured(b['kg'], 'kg')}` : ''
  const decision = typeof b['decision'] === 'string' ? `, ${b['decision']}` : ''
  const version = typeof b['version'] === 'number' ? `, version ${b['version']}` : ''
  return head + line + version + kg + decision
}

/** Name of a person by code; the code where the kitchen does not know them. */
export const personName = (kitchen: Pick<KitchenView, 'people'>, code: string): string =>
  kitchen.people.find((p) => p.person === code)?.name ?? code
