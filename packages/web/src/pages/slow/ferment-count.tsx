import type { CountedSystem } from '@forcemeat/server/slow/degree-count'
import type { FermentView } from '@forcemeat/server/slow/ferment-view'
import { instant, number, temperature } from '../../ui/figures.ts'
import { Sheet } from '../../ui/sheet.tsx'
import { VerdictMark } from '../../ui/verdict.tsx'
import { Working } from '../../ui/working.tsx'
import { markName, placeName } from '../../ui/words.ts'
import { spanOf, timeOfWeek, useNow } from './clock-now.ts'

const HOUR = 3_600_000
/** A last reading older than this says nothing of the chamber now, ms. */
const STALE_MS = 2 * HOUR

/** The count that runs out first. */
const firstOut = (systems: readonly CountedSystem[]): CountedSystem | undefined =>
  systems.filter((s) => s.hoursLeft !== undefined).toSorted((a, b) => a.hoursLeft! - b.hoursLeft!)[0]

/** The one thing that is asked while a sausage sours: how long there is. */
export function HoursLeft({ view }: { view: FermentView }) {
  const now = useNow()
  const { systems, lastTempC, to, countedToPh } = view
  const reached = systems.find((s) => s.hoursToTarget !== undefined)
  if (systems.length === 0 || !to) return null
  // Within a hair of the limit the findings decide, which know whether the limit itself is allowed.
  const over = systems.filter((s) => s.degreeHours >= s.limit)
  if (reached)
    return (
      <p class="standing">
        pH {number(countedToPh, 3)} was measured {spanOf(reached.hoursToTarget!)} after the first reading; the count
        ended there.
        {over.length > 0 && (
          <span class="late">
            {' '}
            By then the limit was passed ({over.map((s) => placeName(s.jurisdiction)).join('; ')}). Hold the batch.
          </span>
        )}
      </p>
    )
  const worst = firstOut(systems)
  const last = Date.parse(to)
  const stale = now - last > STALE_MS
  const hole = systems.find((s) => s.hole)?.hole
  if (!worst)
    return (
      <p class="standing">
        At {temperature(lastTempC)} no degree-hours run up. pH {number(countedToPh, 3)} is not measured yet.
      </p>
    )
  const out = Date.parse(worst.runsOutAt!)
  const left = stale ? worst.hoursLeft! : (out - now) / HOUR
  const usedUp = systems
    .filter((s) => s.runsOutAt !== undefined && Date.parse(s.runsOutAt) <= (stale ? last : now))
    .map((s) => placeName(s.jurisdiction))
  const used = worst.hoursLeft === 0 || (!stale && left <= 0)
  return (
    <div class="standing" role="status">
      {used ? (
        <p class="late">
          The degree-hours are used up ({usedUp.join('; ')}), and pH {number(countedToPh, 3)} is not measured. Hold the
          batch.
        </p>
      ) : (
        <p>
          <strong>
            {spanOf(left)} left at {temperature(lastTempC)}
          </strong>
          : runs out {timeOfWeek(out)} ({placeName(worst.jurisdiction)}, {number(worst.limit, 4)} {worst.unit}
          {worst.limitMark === 'from-memory' && ', a limit from memory, not confirmed'}).
        </p>
      )}
      {stale && <p class="late">The last reading of the chamber is of {instant(to)}; nothing is known since.</p>}
      {hole && (
        <p class="late">
          No reading between hour {number(hole.from, 3)} and hour {number(hole.to, 3)}: what ran up there is not
          counted, so there is less time than this.
        </p>
      )}
    </div>
  )
}

/** Each published count with its limit, opened to its steps. */
export function DegreeHours({ systems }: { systems: readonly CountedSystem[] }) {
  if (systems.length === 0) return null
  return (
    <section>
      <h2>Degree-hours</h2>
      <Sheet
        caption="Degree-hours by each published system"
        rows={systems}
        rowKey={(s) => s.jurisdiction}
        columns={[
          { head: 'System', names: true, cell: (s) => placeName(s.jurisdiction) },
          { head: 'So far', num: true, cell: (s) => `${number(s.degreeHours, 4)} ${s.unit}` },
          { head: 'Limit', num: true, cell: (s) => `${number(s.limit, 4)} ${s.unit}` },
          { head: 'Warmest', num: true, cell: (s) => temperature(s.highestC) },
          {
            head: 'Left',
            num: true,
            cell: (s) =>
              s.hoursToTarget !== undefined
                ? 'ended'
                : s.hoursLeft === undefined
                  ? 'does not run'
                  : s.hoursLeft === 0
                    ? 'used up'
                    : spanOf(s.hoursLeft),
          },
          {
            head: 'Runs out',
            keep: true,
            cell: (s) => (s.runsOutAt && s.hoursLeft ? timeOfWeek(Date.parse(s.runsOutAt)) : '–'),
          },
        ]}
      />
      {systems
        .filter((s) => s.limitMark === 'from-memory')
        .map((s) => (
          <p key={s.jurisdiction} class="late">
            The limit of {placeName(s.jurisdiction)} at this temperature is {markName(s.limitMark)}.
          </p>
        ))}
      {systems.map((s) => (
        <Working
          key={s.jurisdiction}
          figure={`How ${number(s.degreeHours, 4)} ${s.unit} is reckoned`}
          steps={s.working}
        />
      ))}
    </section>
  )
}

/** Growth of S. aureus beside the count: an estimate, and said to be one. */
export function StaphGrowth({ view }: { view: FermentView }) {
  const { staph } = view
  if (!staph) return null
  return (
    <section>
      <h2>S. aureus, an estimate that decides nothing</h2>
      <p>
        <VerdictMark verdict="cannot-tell" label="No finding" />
        Growth so far {number(staph.logGrowth, 2)} tenfolds by the published model, up to{' '}
        <strong>{number(staph.logGrowthUpper, 2)}</strong> with the margin that covers measured rates. An estimate that
        counts no lag, no competition by the culture and no slowing by acid, so it leans high. It stands beside the
        degree-hours, decides nothing, and toxin is only told by a test.
      </p>
      <Working figure="How it is estimated" steps={staph.working}>
        <ul>
          {staph.warnings.map((w) => (
            <li key={w}>{w}</li>
          ))}
        </ul>
      </Working>
    </section>
  )
}
