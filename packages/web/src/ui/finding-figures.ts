import type { Finding } from '@forcemeat/craft/finding'
import { system } from '../state/who.ts'
import { apart, measured } from './figures.ts'

/** Units a rule may speak in that a screen in pounds and °F does not. */
const turned: readonly string[] = ['°C', 'kg']

/** Figures of a finding in the units of this screen, to stand beside its sentence, which keeps the words and units of the rule. */
export function besideSentence(
  f: Pick<Finding, 'measured' | 'limit' | 'margin' | 'unit'> & { readonly because?: string },
): string {
  // Degrees of the sentence stand in it in both units.
  const saidThere = f.unit === '°C' && f.because?.includes('°') === true
  const again = system.value === 'us' && turned.includes(f.unit) && !saidThere
  return [
    ...(again && f.measured !== undefined ? [`measured ${measured(f.measured, f.unit)}`] : []),
    ...(again && f.limit !== undefined ? [`limit ${measured(f.limit, f.unit)}`] : []),
    ...(f.margin === undefined ? [] : [`margin ${apart(f.margin, f.unit)}`]),
  ].join(', ')
}
