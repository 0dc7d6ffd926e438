import { defaultUnit } from '../../state/reader.ts'
import { useResource } from '../../state/resource.ts'
import { ChoiceField, TextField } from '../../ui/field.tsx'
import { inScreenUnit } from '../../ui/form.tsx'
import { day, inScreenUnits, mass } from '../../ui/figures.ts'
import { Shown } from '../../ui/notes.tsx'
import type { WeekView } from './plan-views.ts'
import { WeekBatches } from './week-batches.tsx'
import { WeekLoad } from './week-load.tsx'
import { Expiring, ToBuy, UnderWay } from './week-lots.tsx'
import { Later, WeekOrders } from './week-orders.tsx'
import { batchKg, setWeek, weekQuery, weekSettings } from './week-settings.ts'
import { paper } from '../../ui/paper.ts'

const spans = [
  { value: '7', label: '7 days' },
  { value: '14', label: '14 days' },
  { value: '28', label: '28 days' },
  { value: '42', label: '42 days' },
]
const weekdays = ['Sunday', 'Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday'] as const

/** The plan of the days to come: what to make when, for whom, from which lots, on what, and what is missing. */
export function WeekPlan() {
  const query = weekQuery(weekSettings.value)
  const week = useResource<WeekView>(`/api/plan?${query.toString()}`)
  return (
    <>
      <div class="head-line">
        <h1>Plan</h1>
        <p class="actions">
          <a class="button" href={paper('plan/week', query)} target="_blank" rel="noreferrer">
            Print it
          </a>
          <a class="button main" href="/plan/orders">
            Take an order
          </a>
        </p>
      </div>
      <Settings />
      <Shown of={week.value} what="the plan">
        {(w) => (
          <>
            <Standing week={w} />
            {w.plan && w.plan.status === 'optimal' && <WeekBatches week={w} plan={w.plan} />}
            {w.lines.length > 0 && <WeekOrders week={w} />}
            {w.plan && <ToBuy plan={w.plan} />}
            {w.plan && <Expiring plan={w.plan} />}
            {w.plan && w.plan.load.length > 0 && <WeekLoad week={w} plan={w.plan} />}
            <UnderWay week={w} />
            {w.later.length > 0 && <Later week={w} />}
            {w.products.length > 0 && <Reckoned week={w} />}
          </>
        )}
      </Shown>
    </>
  )
}

function Standing({ week: w }: { week: WeekView }) {
  const bad = w.lines.filter((l) => l.lateKg > 0 || l.shortKg > 0)
  return (
    <>
      {!w.plan && (
        <div class="empty">
          <p>
            {w.later.length > 0
              ? 'No open order needs a batch begun in these days.'
              : 'No order is open, so there is nothing to plan.'}
          </p>
          {w.later.length === 0 && (
            <p>
              <a href="/plan/orders">Take the first order</a>, or{' '}
              <a href="/stock/import?kind=orders">bring orders in from a file</a>. Then say what the mixer and the
              smokehouse take a day under <a href="/plan/resources">Resources</a>.
            </p>
          )}
        </div>
      )}
      {w.plan?.status === 'unsolved' && (
        <p class="faults" role="alert">
          No plan could be found: {w.plan.because}.
        </p>
      )}
      {w.plan?.status === 'optimal' && (
        <p class="figure-line" role="status">
          {bad.length === 0 ? (
            <>
              From {day(w.from)}, {w.days} days: all {w.lines.length} order lines can be met in time.
            </>
          ) : (
            <span class="late">
              {bad.length} of {w.lines.length} order lines would be late or short.
            </span>
          )}{' '}
          {w.plan.tight.length > 0 && `No room left: ${tightWords(w)}.`}
        </p>
      )}
      {w.notes.length > 0 && (
        <ul>
          {w.notes.map((n) => (
            <li key={n} class="quiet">
              {inScreenUnits(n)}
            </li>
          ))}
        </ul>
      )}
    </>
  )
}

/** "MIXER on 2026-03-02" by name and date. */
const tightWords = (w: WeekView): string =>
  (w.plan?.tight ?? [])
    .map((t) => {
      const [id = '', on = ''] = t.split(' on ')
      return `${w.resources.find((r) => r.id === id)?.name ?? id} on ${day(on)}`
    })
    .join('; ')

/** A size is kept with its unit; a figure without one is in that of this screen once the field is left. */
const hasUnit = (typed: string): boolean => /[a-z]/i.test(typed)
const bareUnit = (typed: string): string => (hasUnit(typed) ? 'of mix' : `${defaultUnit('mass')} of mix`)
const withUnit = (typed: string): string =>
  typed.trim() === '' || hasUnit(typed) ? typed : `${typed.trim()} ${defaultUnit('mass')}`
const sizeWords = (typed: string): string => {
  const kg = batchKg(typed)
  return kg === undefined ? typed : mass(kg)
}

function Settings() {
  const s = weekSettings.value
  return (
    <details>
      <summary>
        {s.days} days, batches of {sizeWords(s.smallest)} to {sizeWords(s.largest)} of mix
        {s.closed.length > 0 && `, nothing begun on ${s.closed.map((d) => weekdays[d]).join(', ')}`}
      </summary>
      <div class="row top">
        <ChoiceField label="Days" value={s.days} options={spans} onInput={(days) => setWeek({ days })} />
        <TextField
          type="date"
          label="Bought goods can be here from"
          value={s.buyFrom}
          onInput={(buyFrom) => setWeek({ buyFrom })}
          hint="Tomorrow, where none is said."
        />
        <TextField
          label="Smallest batch"
          numeric
          unit={bareUnit(s.smallest)}
          value={s.smallest}
          onInput={(smallest) => setWeek({ smallest })}
          onLeave={() => setWeek({ smallest: withUnit(s.smallest) })}
          hint={inScreenUnit(withUnit(s.smallest), 'mass')}
        />
        <TextField
          label="Largest batch"
          numeric
          unit={bareUnit(s.largest)}
          value={s.largest}
          onInput={(largest) => setWeek({ largest })}
          onLeave={() => setWeek({ largest: withUnit(s.largest) })}
          hint={inScreenUnit(withUnit(s.largest), 'mass')}
        />
      </div>
      <fieldset>
        <legend>Nothing is begun on</legend>
        {weekdays.map((name, d) => (
          <label class="tick" key={name}>
            <input
              type="checkbox"
              checked={s.closed.includes(d)}
              onInput={() =>
                setWeek({ closed: s.closed.includes(d) ? s.closed.filter((x) => x !== d) : [...s.closed, d] })
              }
            />
            {name}
          </label>
        ))}
      </fieldset>
    </details>
  )
}

/** What was taken of each product: yield, days, stock. */
function Reckoned({ week: w }: { week: WeekView }) {
  return (
    <details>
      <summary>How it is reckoned</summary>
      <p>
        As little as possible short, then late, then in few batches, then as late as it can be made; lots go out first
        to expire first, and what batches already planned are to take is kept for them. It is a proposal to work from:
        yields and drying days are expectations.
      </p>
      <ul>
        {w.products.map((p) => (
          <li key={p.recipe}>
            {p.name}, version {p.version}: {Number(p.yieldPct.toFixed(1))} % of the mix comes out; {p.lead.days}{' '}
            {p.lead.days === 1 ? 'day' : 'days'} ({p.lead.because}).
          </li>
        ))}
      </ul>
    </details>
  )
}
