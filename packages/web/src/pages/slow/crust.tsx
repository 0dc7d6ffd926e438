import type { CourseOutput } from '@forcemeat/craft/dry/course-schema'
import { number, percent } from '../../ui/figures.ts'
import { Sheet } from '../../ui/sheet.tsx'
import { VerdictMark } from '../../ui/verdict.tsx'
import { dateOf } from './dry-ready.tsx'

type Risk = CourseOutput['crustRisk'][number]

/** Days whose risk is not over, the worst first. */
const ahead = (risk: readonly Risk[], fromDay: number): Risk[] =>
  risk.filter((r) => r.day >= fromDay - 1).toSorted((a, b) => b.aw - b.rimAw - (a.aw - a.rimAw))

/** In a line: whether a crust threatens from a day on, and the air that would be safe. */
export function crustWords(risk: readonly Risk[], fromDay: number, start: number): string {
  const worst = ahead(risk, fromDay)[0]
  if (!worst) return 'No crust threatens in this air.'
  const gap = 100 * (worst.aw - worst.rimAw)
  return `${worst.level === 'high' ? 'High risk of a crust' : 'A crust is to be watched for'} around ${dateOf(start, worst.day)}: the rim lies ${number(gap, 2)} points under the whole at ${percent(worst.rhPct)} air; ${percent(worst.safeRhPct)} would be safe.`
}

/** The same with its mark: a high risk is told by shape and word, not by colour. */
export function CrustLine({ risk, fromDay, start }: { risk: readonly Risk[]; fromDay: number; start: number }) {
  const level = ahead(risk, fromDay)[0]?.level
  return (
    <p class={level === 'high' ? 'late' : undefined}>
      {level !== undefined && (
        <VerdictMark verdict={level === 'high' ? 'fail' : 'cannot-tell'} label={level === 'high' ? 'Crust' : 'Watch'} />
      )}{' '}
      {crustWords(risk, fromDay, start)}
    </p>
  )
}

/** Days on which the rim dries faster than the core can feed it. */
export function CrustRisk({ risk, fromDay, start }: { risk: readonly Risk[]; fromDay: number; start: number }) {
  return (
    <section>
      <h2>Crust</h2>
      <CrustLine risk={risk} fromDay={fromDay} start={start} />
      {risk.length > 0 && (
        <details>
          <summary>{risk.length} days with a risk of crust</summary>
          <Sheet
            caption="Days with a risk of crust"
            rows={risk}
            rowKey={(r) => r.day}
            columns={[
              { head: 'Day', names: true, keep: true, cell: (r) => `${number(r.day, 3)}, ${dateOf(start, r.day)}` },
              { head: 'Level', cell: (r) => (r.level === 'high' ? 'high' : 'watch') },
              { head: 'Air', num: true, cell: (r) => percent(r.rhPct) },
              { head: 'Whole', num: true, cell: (r) => number(r.aw, 3) },
              { head: 'Rim', num: true, cell: (r) => number(r.rimAw, 3) },
              { head: 'Safe air', num: true, cell: (r) => percent(r.safeRhPct) },
            ]}
          />
        </details>
      )}
    </section>
  )
}
