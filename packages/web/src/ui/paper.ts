import { system } from '../state/who.ts'

/** Paper of the country whose units this screen shows. */
export const paperSize = (): 'A4' | 'Letter' => (system.value === 'us' ? 'Letter' : 'A4')

/** Address of a paper under /paper, on the paper and in the units of this screen. */
export const paper = (path: string, query: Readonly<Record<string, string>> | URLSearchParams = {}): string => {
  const asked = new URLSearchParams(query)
  asked.set('size', paperSize())
  asked.set('units', system.value)
  return `/paper/${path}.pdf?${asked.toString()}`
}
