import type { Finding } from '@forcemeat/craft/finding'
import { coolingCorrectives } from '../../data/cooling/corrective.ts'
import { fermentCorrectives } from '../../data/ferment/corrective.ts'
import { lethalityCorrectives } from '../../data/lethality/corrective.ts'
import type { Rule } from '../rule.ts'
import type { Corrective } from './corrective.ts'

export type { Corrective } from './corrective.ts'

const lethality = lethalityCorrectives.map((c) => ({ ...c, topic: 'lethality' as const }))
const cooling = coolingCorrectives.map((c) => ({ ...c, topic: 'cooling' as const }))
const ferment = fermentCorrectives.map((c) => ({ ...c, topic: 'fermentation' as const }))

/** The corrective choices as entries of the rulebook, for the reader of the rules. */
export const correctiveRules: readonly Rule[] = [...lethality, ...cooling, ...ferment].map((c) => ({
  id: c.id,
  title: c.title,
  jurisdiction: 'US',
  topic: c.topic,
  scope: c.text,
  unit: '',
  weight: 'advice',
  values: [{ source: c.source }],
}))

/**
 * What is open after findings that fail. An option of cooling that fails needs nothing where another meets the standard they all serve;
 * where the standard fails or cannot be told, it does.
 */
export function correctivesFor(findings: readonly Finding[]): readonly Corrective[] {
  const kept = findings.some((f) => f.rule === 'us.fsis.stabilization' && f.verdict === 'pass')
  const failed = findings.filter((f) => f.verdict === 'fail' && !(kept && f.rule.startsWith('us.fsis.cooling.')))
  return [...lethalityCorrectives, ...coolingCorrectives, ...fermentCorrectives].filter((c) =>
    c.after.some((id) => failed.some((f) => f.rule === id || f.rule.startsWith(id))),
  )
}
