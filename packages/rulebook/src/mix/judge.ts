import type { MixQuestion } from '@forcemeat/craft/mix/ice'
import { finalTemperatureRules } from '../../data/mix/final-temperature.ts'
import { judgeCase } from '../evaluate.ts'
import type { Finding } from '../rule.ts'

/** Rules of the trade without a date hold on any day. */
const ANY_DAY = '9999-12-31'

/** How the final temperature of a mix stands against what the trade keeps to for its kind: advice, never a limit of law. */
export const judgeMix = ({ kind, finalC, warmerC }: MixQuestion): Finding[] =>
  judgeCase(finalTemperatureRules, {
    facts: { kind },
    measures: {
      finalC: { value: finalC, low: finalC, high: Math.max(finalC, warmerC), settle: 'a probe in the bowl' },
    },
    on: ANY_DAY,
    jurisdictions: [],
  })
