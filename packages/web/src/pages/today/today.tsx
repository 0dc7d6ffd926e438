import { useResource } from '../../state/resource.ts'
import type { KitchenView, TodayView } from '../../state/views.ts'
import { apart, day, instant, mass } from '../../ui/figures.ts'
import { materialName, withNames } from '../../ui/material-field.tsx'
import { Shown } from '../../ui/notes.tsx'
import { stateName } from '../../ui/words.ts'
import { Due } from '../instruments/instruments.tsx'
import { FirstSteps } from './first-steps.tsx'
import { Part } from './part.tsx'
import { SlowToday } from './slow-batches.tsx'

/** What is in hand: holds first, then batches on the way, lots near their date, instruments due. */
export function Today({ kitchen }: { kitchen: KitchenView }) {
  const today = useResource<TodayView>('/api/today')
  return (
    <Shown of={today.value} what="today">
      {(t) => (
        <>
          <div class="head-line">
            <h1>Today, {day(t.on)}</h1>
            <a class="button main" href="/batches/plan">
              Plan a batch
            </a>
          </div>
          {t.batchesInDoubt.length > 0 && (
            <Part head="Made or sent out, and in doubt" stop>
              {t.batchesInDoubt.map((b) => (
                <li key={b.batch}>
                  <a class="lead" href={`/batches/${encodeURIComponent(b.batch)}`}>
                    {b.batch}
                  </a>{' '}
                  {b.recipeName}, made {day(b.on)}, {stateName(b.state)}
                  {b.because.map((why) => (
                    <p class="late" key={why}>
                      {withNames(why)}
                    </p>
                  ))}
                </li>
              ))}
            </Part>
          )}
          <BackupTrouble />
          {t.holds.length > 0 && (
            <Part head="On hold" stop>
              {t.holds.map((b) => (
                <li key={b.batch}>
                  <a class="lead" href={`/batches/${encodeURIComponent(b.batch)}/decide`}>
                    {b.batch}
                  </a>{' '}
                  {b.recipeName}, made {day(b.on)}, {mass(b.meatKg)} of meat
                </li>
              ))}
              <More count={t.more.holds} />
            </Part>
          )}
          {t.deviations.length > 0 && (
            <Part head="Open deviations" stop>
              {t.deviations.map((d) => (
                <li key={d.deviation}>
                  <a class="lead" href={`/record/deviations/${encodeURIComponent(d.deviation)}`}>
                    {d.deviation}
                  </a>{' '}
                  {d.what}, seen {day(d.on)}
                </li>
              ))}
            </Part>
          )}
          {t.doubts.length > 0 && (
            <Part head="Batches an instrument has put in doubt" stop>
              {t.doubts.map((d) => (
                <li key={d.check}>
                  <a class="lead" href={`/instruments/${encodeURIComponent(d.instrument)}`}>
                    {d.instrument}
                  </a>{' '}
                  found {apart(d.error, d.unit)} off on {day(d.found)}: {d.batches.map((b) => b.batch).join(', ')} to be
                  dealt with
                </li>
              ))}
            </Part>
          )}
          {t.batches.length + t.holds.length === 0 && <FirstSteps kitchen={kitchen} />}
          <Part head="Batches on the way" none={t.batches.length === 0 && 'No batch is on the way.'}>
            {t.batches.map((b) => (
              <li key={b.batch}>
                <a class="lead" href={`/batches/${encodeURIComponent(b.batch)}`}>
                  {b.batch}
                </a>{' '}
                {b.recipeName}, {stateName(b.state)}
                <p>
                  {b.waitsFor.length ? (
                    <>Waits for {b.waitsFor.map(withNames).join('; ')}.</>
                  ) : (
                    <span class="quiet">Waits for nothing.</span>
                  )}
                </p>
              </li>
            ))}
            <More count={t.more.batches} />
          </Part>
          <SlowToday />
          <Part head="Lots near their date" none={t.lotsNearUseBy.length === 0 && 'No lot is near its date.'}>
            {t.lotsNearUseBy.map((l) => (
              <li key={l.lot}>
                <a class="lead" href={`/stock/${encodeURIComponent(l.lot)}`}>
                  {l.lot}
                </a>{' '}
                {materialName(l.material)}, {mass(l.balanceKg)} left
                <p class={l.daysLeft < 0 ? 'late' : undefined}>{untilWords(l.daysLeft, l.useBy)}</p>
              </li>
            ))}
          </Part>
          {t.lotsBelowZero.length > 0 && (
            <Part head="Lots that hold less than nothing" stop>
              {t.lotsBelowZero.map((l) => (
                <li key={l.lot}>
                  <a class="lead" href={`/stock/${encodeURIComponent(l.lot)}`}>
                    {l.lot}
                  </a>{' '}
                  {materialName(l.material)}: {mass(l.balanceKg)}. Count it, or correct the entry that took too much.
                </li>
              ))}
            </Part>
          )}
          <Part
            head="Instruments due a check"
            none={
              t.instrumentsDue.length === 0 &&
              (kitchen.instruments.length === 0 ? 'No instrument is on the list.' : 'Every instrument is in date.')
            }
          >
            {t.instrumentsDue.map((i) => (
              <li key={i.instrument}>
                <a class="lead" href={`/instruments/${encodeURIComponent(i.instrument)}`}>
                  {i.name}
                </a>{' '}
                <Due instrument={i} />
              </li>
            ))}
          </Part>
        </>
      )}
    </Shown>
  )
}

/** What of a list stands elsewhere, where it is longer than a day's page. */
function More({ count }: { count: number }) {
  if (count === 0) return null
  return (
    <li>
      <a href="/batches">
        {count >= 1000 ? 'A thousand or more others' : `${count} more, older`}: all batches, with a filter
      </a>
    </li>
  )
}

type Backups = {
  readonly trouble?: { readonly at: string; readonly why: string }
  readonly last?: { readonly at: string }
}

/** A backup by the clock that failed; nothing where all is well, or none is planned. */
function BackupTrouble() {
  const { trouble, last } = useResource<Backups>('/api/backup').value.value ?? {}
  if (!trouble) return null
  return (
    <Part head="The last backup failed" stop>
      <li>
        {instant(trouble.at)}: {trouble.why}
        <p>{last ? `The last good one is of ${instant(last.at)}.` : 'There is no good one yet.'}</p>
      </li>
    </Part>
  )
}

const untilWords = (days: number, date: string | undefined): string => {
  if (days < 0) return `past its date since ${day(date)}: not for use without a decision`
  if (days === 0) return 'use by today'
  return days === 1 ? 'use by tomorrow' : `use by ${day(date)}, ${days} days left`
}
