import { convert } from '@forcemeat/craft/quantity/units'
import type { Verdict } from '@forcemeat/craft/finding'
import type { SheetLine } from '../../state/batch-plan.ts'
import { mass } from '../../ui/figures.ts'
import { VerdictMark } from '../../ui/verdict.tsx'

const marks: Readonly<Record<'fit' | 'unfit' | 'cannot-tell', { verdict: Verdict; label: string }>> = {
  fit: { verdict: 'pass', label: 'Scale fit' },
  unfit: { verdict: 'fail', label: 'Scale not fit' },
  'cannot-tell': { verdict: 'cannot-tell', label: 'Cannot tell' },
}

/** Whether the scale is fit for a line, why, and what would do. */
export function ScaleFit({ line }: { line: SheetLine }) {
  const { verdict, label } = marks[line.verdict]
  return (
    <p class="fit">
      <VerdictMark verdict={verdict} label={label} />
      {line.because}
      {line.toleranceG !== undefined && (
        <span class="quiet">
          {' '}
          · allowed ± {mass(convert(line.toleranceG, 'mass', 'g', 'kg'), 3)} ({line.toleranceFrom})
        </span>
      )}
      {line.advice.map((a) => (
        <span key={a} class="advice">
          {' '}
          {a}
        </span>
      ))}
    </p>
  )
}
