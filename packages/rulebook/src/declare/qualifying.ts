import type { QualifyingQuestion } from '@forcemeat/craft/declare/qualifying'
import type { Finding } from '@forcemeat/craft/finding'
import { canDecide } from '@forcemeat/craft/source'
import { qualifyingRules } from '../../data/declare/qualifying-words.ts'
import { heading } from '../evaluate.ts'

/** Findings on the words a name needs: one for each that is due, and one for each said of a product that is not so. */
export function judgeQualifying(q: QualifyingQuestion): Finding[] {
  return q.words.map(({ id, said, claimed }): Finding => {
    const rule = qualifyingRules[id]!
    const dated = rule.values[0]!
    const head = heading(rule, dated)
    if (claimed)
      return {
        ...head,
        verdict: 'fail',
        because: 'the name says it of a product that is not so',
        settle: 'take it out of the name',
      }
    if (said === undefined)
      return {
        ...head,
        verdict: 'fail',
        because: 'due, and it stands nowhere on the label',
        settle: 'say it in the name, the list or a statement',
      }
    if (canDecide(dated.source.mark)) return { ...head, verdict: 'pass', because: `due; it stands ${said}` }
    return {
      ...head,
      verdict: 'cannot-tell',
      because: `due as far as known, and it stands ${said}; but the rule is from memory, not read in its source`,
      settle: `read ${dated.source.document}, ${dated.source.section}`,
    }
  })
}
