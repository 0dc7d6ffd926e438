import type { Plan } from '@forcemeat/craft/plan/schema'
import { columnUnit, day, inColumn } from '../../ui/figures.ts'
import type { WeekView } from './plan-views.ts'

/** How full each resource is on each day of the plan, as a table of shares; a full one is said in words, too. */
export function WeekLoad({ week, plan }: { week: WeekView; plan: Plan }) {
  const days = Array.from({ length: week.days }, (_, i) =>
    new Date(Date.parse(week.from) + i * 86_400_000).toISOString().slice(0, 10),
  )
  const rows = week.resources.filter((r) => plan.load.some((l) => l.resource === r.id))
  return (
    <>
      <h2>How full the days are</h2>
      <div class="sheet" tabIndex={0} role="region" aria-label="How full the days are">
        <table>
          <caption class="visually-hidden">How full the days are</caption>
          <thead>
            <tr>
              <th scope="col">Day</th>
              {rows.map((r) => (
                <th key={r.id} scope="col" class="num">
                  {r.name}, {columnUnit(r.unit)}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {days.map((d) => (
              <tr key={d}>
                <th scope="row" class="names keep">
                  {day(d)}
                  {week.closed.includes(d) && <span class="quiet"> closed</span>}
                </th>
                {rows.map((r) => (
                  <td key={r.id} class="num">
                    <Used load={plan.load.find((l) => l.day === d && l.resource === r.id)} unit={r.unit} />
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </>
  )
}

function Used({ load: l, unit }: { load: Plan['load'][number] | undefined; unit: string }) {
  if (!l) return <span class="quiet">–</span>
  const share = `${inColumn(l.used, unit)} of ${inColumn(l.perDay, unit)}`
  if (l.used > l.perDay * 1.0001) return <span class="late">{share}, over</span>
  return l.pct >= 99.9 ? <strong>{share}, full</strong> : <>{share}</>
}
