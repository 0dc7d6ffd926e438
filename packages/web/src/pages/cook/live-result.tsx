import { clock } from '../../plot/model.ts'
import { degrees, number, temperature } from '../../ui/figures.ts'
import { Sheet } from '../../ui/sheet.tsx'
import { VerdictMark } from '../../ui/verdict.tsx'
import type { Choice, LiveResult } from '../../work/cook-live.ts'
import type { LiveShown } from './live-state.ts'

const minutes = (m: number): string => `${Math.max(0, Math.round(m))} min`
/** An estimate far past every target says no more by its digits. */
const MOST_LOG = 20
const logs = (x: number): string => (x > MOST_LOG ? `> ${MOST_LOG}` : number(x, 3))

function whenMet({ fit, cooling }: LiveResult): string {
  const t = fit.minutesToTargetC
  if (!t || cooling) return ''
  if (t.state === 'already-met') return `${temperature(t.targetC)} is reached.`
  if (t.state === 'not-in-this-schedule') return `${temperature(t.targetC)} does not come with these stages.`
  return `${temperature(t.targetC)} in about ${minutes(t.likely!)}, between ${minutes(t.early!)} and ${t.late === undefined ? 'never, should the film be poor' : minutes(t.late)}.`
}

/** Where the core stands, and when it will be there. */
export function Standing({ shown }: { shown: LiveShown }) {
  const { result, request, probe } = shown
  return (
    <div class="live-now" role="status">
      <p class="target">
        Core {temperature(result.nowC)}{' '}
        <span class="where">
          {probe}, {result.cooling ? 'the warmest' : 'the coldest'}, after {clock(result.nowMinute)}, stage{' '}
          {result.current + 1}
        </span>
      </p>
      {result.trusted ? (
        <p class="figure-line">{whenMet(result)}</p>
      ) : (
        <p class="faults">
          The model follows these readings only to {degrees(result.fit.rmsC, 2)}: what it says of the time to come is
          not to be relied on. Set the stages, the diameter and the start to what they really were.
        </p>
      )}
      {result.houseOff && (
        <p>
          The house stands at {temperature(result.houseOff.loggedC)}, not at the {temperature(result.houseOff.plannedC)}{' '}
          of the stage: the reading is taken for the time to come.
        </p>
      )}
      <p>
        {logs(result.reductionNow)} log of Salmonella so far, estimated
        {result.target && <>; the table of this product stands for {result.target.log}</>}.
        {request.toleranceC > 0 && <> The thermometer is right within {degrees(request.toleranceC, 2)}.</>}
      </p>
    </div>
  )
}

const reach = (c: Choice, target: number | undefined, trusted: boolean): string =>
  !trusted
    ? 'cannot tell'
    : target === undefined
      ? ''
      : c.logPoor >= target
        ? 'reaches it, poor end too'
        : c.logLikely >= target
          ? 'likely, not for certain'
          : `short by ${number(target - c.logLikely, 2)} log`

/** Pull now, or hold so many minutes more: what each gives. */
export function Choices({ shown }: { shown: LiveShown }) {
  const { choices, target, trusted } = shown.result
  if (choices.length === 0) return null
  return (
    <section>
      <h2>Pull now, or hold</h2>
      <Sheet
        caption="Pull now, or hold"
        rows={choices}
        rowKey={(c) => c.holdMinutes}
        columns={[
          {
            head: 'Choice',
            names: true,
            cell: (c) => (c.holdMinutes === 0 ? 'pull now' : `hold ${number(c.holdMinutes, 4)} min more`),
          },
          { head: 'Core then', num: true, cell: (c) => temperature(c.coreC) },
          { head: 'Peak', num: true, cell: (c) => temperature(c.peakC) },
          { head: 'Log reduction', num: true, cell: (c) => logs(c.logLikely) },
          { head: 'at the poor end', num: true, cell: (c) => logs(c.logPoor) },
          ...(target ? [{ head: `${target.log}-log`, cell: (c: Choice) => reach(c, target.log, trusted) }] : []),
        ]}
      />
      <p class="quiet">
        What comes after the pull counts too: the core goes on rising, then cools as the next stages say. The poor end
        takes the low ends of the fit and the thermometer reading high.
      </p>
    </section>
  )
}

/** Whether the chill will keep its windows, while there is time to act. */
export function ChillAheadPart({ shown }: { shown: LiveShown }) {
  const { chill, cooling } = shown.result
  if (!chill) return null
  const missing = chill.likely === 'fail'
  const may = !missing && (chill.poor === 'fail' || chill.likely !== 'pass')
  const soonest = chill.options.flatMap((o) =>
    o.minutesLeft === undefined || o.minutesLeft < 0 ? [] : [o.minutesLeft],
  )
  return (
    <section>
      <h2>{cooling ? 'The chill as it goes' : 'The chill that follows, as planned'}</h2>
      {(missing || may) && (
        <div class="faults" role="alert">
          <strong>
            {missing ? 'The chill will miss every published option that applies.' : 'The chill may miss its window.'}
          </strong>
          {soonest.length > 0 && ` ${minutes(Math.min(...soonest))} are left of the window that runs.`}{' '}
          {cooling
            ? chill.actions.some((a) => a.verdict === 'pass')
              ? 'Act now: below is what would still keep it.'
              : 'Act now: cool it faster, and go on measuring.'
            : 'Choose another before it begins: below is what would keep it.'}
        </div>
      )}
      <p>
        <VerdictMark
          verdict={chill.likely}
          label={{ pass: 'Likely keeps it', fail: 'Likely misses it', 'cannot-tell': 'Cannot tell' }[chill.likely]}
        />{' '}
        {chill.because}
      </p>
      {chill.actions.length > 0 && (
        <Sheet
          caption="What could be done now"
          rows={chill.actions}
          rowKey={(a) => a.label}
          columns={[
            { head: 'What could be done', names: true, cell: (a) => a.label },
            {
              head: 'The chill then',
              cell: (a) => (
                <VerdictMark
                  verdict={a.verdict}
                  label={{ pass: 'likely keeps it', fail: 'misses it', 'cannot-tell': 'cannot tell' }[a.verdict]}
                />
              ),
            },
          ]}
        />
      )}
      <details>
        <summary>Option by option</summary>
        <Sheet
          caption="Cooling options ahead"
          rows={chill.options}
          rowKey={(o) => o.rule}
          columns={[
            {
              head: 'Option',
              names: true,
              cell: (o) => <a href={`/rules/${encodeURIComponent(o.rule)}`}>{o.title}</a>,
            },
            { head: 'Likely', cell: (o) => <VerdictMark verdict={o.likely} /> },
            { head: 'At the poor end', cell: (o) => <VerdictMark verdict={o.poor} /> },
            {
              head: 'Left of its window',
              num: true,
              cell: (o) => (o.minutesLeft === undefined ? '–' : minutes(o.minutesLeft)),
            },
          ]}
        />
      </details>
    </section>
  )
}

/** What the fit found, and how far it can be trusted. */
export function FitFigures({ shown }: { shown: LiveShown }) {
  const { fit } = shown.result
  return (
    <details>
      <summary>
        The fit: {fit.readings} readings, {degrees(fit.rmsC, 2)} off on the whole
      </summary>
      <Sheet
        caption="Fitted films"
        rows={fit.filmWPerM2K.map((film, i) => ({ film, i, range: fit.filmIntervals[i]! }))}
        rowKey={(r) => r.i}
        columns={[
          { head: 'Stage', names: true, cell: (r) => r.i + 1 },
          { head: 'Film, W/(m²·K)', num: true, cell: (r) => number(r.film, 3) },
          { head: '95 %', cell: (r) => `${number(r.range.low, 3)} to ${number(r.range.high, 3)}` },
          {
            head: 'From',
            cell: (r) => (r.range.fromLog ? 'the readings' : 'the correlation; the readings say little'),
          },
        ]}
      />
      <p>
        Diffusivity {number(fit.diffusivityFactor, 3)} times that of the mix, 95 %{' '}
        {number(fit.diffusivityInterval.low, 3)} to {number(fit.diffusivityInterval.high, 3)}.
      </p>
      <ul class="entries">
        {fit.warnings.map((w) => (
          <li key={w}>{w}</li>
        ))}
      </ul>
    </details>
  )
}
