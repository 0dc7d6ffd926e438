import type { Verdict } from '@forcemeat/craft/finding'
import type { SheetLine } from '../../state/batch-plan.ts'
import { inScreenUnits } from '../../ui/figures.ts'
import { VerdictMark } from '../../ui/verdict.tsx'

const marks: Readonly<Record<'fit' | 'unfit' | 'cannot-tell', { verdict: Verdict; label: string }>> = {
  fit: { verdict: 'pass', label: 'Scale fit' },
  unfit: { verdict: 'fail', label: 'Scale not fit' },
  'cannot-tell': { verdict: 'cannot-tell', label: 'Cannot tell' },
}

const missing = { low: 'Too little nitrite', high: 'Too much nitrite' } as const

/** Whether the scale is fit for a line, why, and what would do. */
export function ScaleFit({ line }: { line: SheetLine }) {
  const { verdict, label } = marks[line.verdict]
  if (line.because === 'no scale is on the list')
    return (
      <p class="fit">
        <VerdictMark verdict="cannot-tell" label="No scale" /> No scale is on the list.{' '}
        <a href="/instruments/new">Add one</a>, and this sheet says whether it is fine enough.
      </p>
    )
  return (
    <p class="fit">
      <VerdictMark verdict={verdict} label={line.misses ? missing[line.misses] : label} />
      {inScreenUnits(line.because)}
      {line.toleranceFrom === 'common practice' && <span class="quiet"> (common practice)</span>}
      {line.advice.map((a) => (
        <span key={a} class="advice">
          {' '}
          {inScreenUnits(a)}
        </span>
      ))}
    </p>
  )
}
