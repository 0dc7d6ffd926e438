import { useMemo } from 'preact/hooks'
import { CurvePlot } from '../../plot/curve-plot.tsx'
import { clock, type PlotPicture } from '../../plot/model.ts'
import { system } from '../../state/who.ts'
import { BLANK, number, percent, temperature } from '../../ui/figures.ts'
import { Sheet } from '../../ui/sheet.tsx'
import { VerdictMark } from '../../ui/verdict.tsx'
import { ReadingsTable } from '../curves/readings-table.tsx'
import { mediumNames, shownIn } from './cook-form.ts'
import type { PlanShown } from './plan-state.ts'

/** The plan as a plot. */
export function planPicture({ request, result }: PlanShown, title: string, surfaceMaxC?: number): PlotPicture {
  const us = system.value === 'us'
  const { targetCoreC } = request
  const spans = result.chill?.spans ?? []
  const line = (c: number, label: string, stops: boolean) => ({
    label: `${label} ${temperature(c)}`,
    value: shownIn(c),
    stops,
  })
  return {
    title,
    temperatureUnit: us ? '°F' : '°C',
    minutes: result.minutes,
    series: [
      { name: 'House', kind: 'house', values: result.houseC.map(shownIn) },
      { name: 'Surface', kind: 'surface', values: result.surfaceC.map(shownIn) },
      { name: 'Core', kind: 'core', values: result.coreC.map(shownIn) },
      { name: 'Log reduction', kind: 'lethality', values: result.logReduction },
    ],
    limits: [
      ...(targetCoreC === undefined ? [] : [line(targetCoreC, 'core to reach', false)]),
      ...(surfaceMaxC === undefined ? [] : [line(surfaceMaxC, 'surface at most', true)]),
      ...spans.flatMap((s, i) =>
        i === 0 ? [line(s.fromC, 'chill', false), line(s.toC, 'chill', false)] : [line(s.toC, 'chill', false)],
      ),
    ],
    windows: spans.map((s) => ({
      label: `${s.shown}: ${Math.round(s.toMinute - s.fromMinute)} of ${s.maxMinutes} min`,
      fromMinute: s.fromMinute,
      toMinute: s.toMinute,
      verdict: s.finished && s.toMinute - s.fromMinute <= s.maxMinutes ? 'pass' : 'fail',
    })),
    marks: [
      ...result.cook.stages.map((s, i) => ({ label: String(i + 1), minute: s.startMinute })),
      ...result.targets.flatMap((t) =>
        t.metMinute === undefined ? [] : [{ label: t.label, minute: t.metMinute, strong: true }],
      ),
    ].toSorted((a, b) => a.minute - b.minute),
  }
}

/** A prediction meets nothing. */
const would = { pass: 'Would meet', fail: 'Would fail', 'cannot-tell': 'Cannot tell' } as const

/** An estimate far past every target says no more by its digits. */
const MOST_LOG = 20
const logs = (x: number): string => (x > MOST_LOG ? `more than ${MOST_LOG} log` : `${number(x, 3)} log`)

/** Fields of the model in the words of this page. */
const told = (warning: string): string =>
  warning
    .replaceAll('filmWPerM2K', 'a film coefficient')
    .replaceAll('rhPct or wetBulbC', 'RH or wet bulb')
    .replaceAll('No airSpeedMPerS', 'No air speed')
    .replaceAll('(criticalLossPct, then a crust)', '(wet until a tenth of the weight is lost, then a crust)')

function Facts({ request, result }: PlanShown) {
  const least = result.estimates[0]
  const { cook } = result
  const surface = result.surfaceC.reduce((m, v) => Math.max(m, v), -Infinity)
  return (
    <dl class="facts">
      {result.targets.map((t) => (
        <>
          <dt>{t.label === 'core' ? `Core at ${temperature(request.targetCoreC)}` : t.label}</dt>
          <dd>
            {t.metMinute === undefined ? (
              <strong class="late">not in this schedule</strong>
            ) : (
              <>after {clock(t.metMinute)} h:min</>
            )}
          </dd>
        </>
      ))}
      <dt>Whole schedule</dt>
      <dd>{clock(cook.minutesTotal)} h:min</dd>
      <dt>Peak of the core</dt>
      <dd>
        {temperature(cook.peakCoreC)} at {clock(cook.peakMinute)}
      </dd>
      <dt>Hottest surface</dt>
      <dd>{temperature(surface)}</dd>
      <dt>Loss of weight</dt>
      <dd>{percent(cook.weightLossPct, 3)} (assumed drying of the surface)</dd>
      <dt>Log reduction in all</dt>
      <dd>
        {logs(result.logReduction.at(-1) ?? 0)} of Salmonella by the table's own D and z
        {least && least.logReduction <= MOST_LOG && (
          <>
            ; by the least of the published sets {logs(least.logReduction)} ({least.matrix})
          </>
        )}
      </dd>
      {result.chill && (
        <>
          <dt>Chill, if measured so</dt>
          <dd>
            <VerdictMark verdict={result.chill.verdict} label={would[result.chill.verdict]} /> {result.chill.because}
          </dd>
        </>
      )}
    </dl>
  )
}

/** Plot, targets, stages, warnings and the figures behind them. */
export function PlanFigures({
  shown,
  title,
  surfaceMaxC,
  stale,
}: {
  shown: PlanShown
  title: string
  surfaceMaxC?: number
  stale: boolean
}) {
  const us = system.value
  const picture = useMemo(() => planPicture(shown, title, surfaceMaxC), [shown, title, surfaceMaxC, us])
  const { cook } = shown.result
  return (
    <>
      <CurvePlot {...picture} height={matchMedia('(max-width: 1100px)').matches ? 280 : 400} />
      <div class={stale ? 'stale' : undefined}>
        <Facts {...shown} />
        <Sheet
          caption="Stages of the plan"
          rows={cook.stages.map((s, i) => ({ ...s, i }))}
          rowKey={(s) => s.i}
          columns={[
            { head: 'Stage', names: true, cell: (s) => `${s.i + 1}, ${mediumNames[s.medium]}` },
            { head: 'Ends at', num: true, cell: (s) => clock(s.endMinute) },
            { head: 'Core', num: true, cell: (s) => temperature(s.coreC) },
            { head: 'Surface', num: true, cell: (s) => temperature(s.surfaceC) },
            { head: 'Loss', num: true, cell: (s) => percent(s.weightLossPct, 3) },
            {
              head: 'Film, W/(m²·K)',
              num: true,
              cell: (s) =>
                `${number(s.filmWPerM2K, 3)}${s.filmFrom === 'common-practice' ? ' (common practice)' : s.filmFrom === 'given' ? ' (given)' : ''}`,
            },
          ]}
        />
        {cook.carryOver && (
          <p class="quiet">
            Taken out at the end, the core still rises to {temperature(cook.carryOver.peakCoreC)} within{' '}
            {number(cook.carryOver.afterMinutes, 2)} min in a room of {temperature(cook.carryOver.roomC)}.
          </p>
        )}
        <h2>What the model leaves open</h2>
        <ul class="entries">
          {cook.warnings.map((w) => (
            <li key={w}>{told(w)}</li>
          ))}
        </ul>
        <ReadingsTable minutes={picture.minutes} series={picture.series} unit={picture.temperatureUnit} />
        <IfMeasured shown={shown} />
      </div>
    </>
  )
}

function IfMeasured({ shown }: { shown: PlanShown }) {
  return (
    <details>
      <summary>What the tables and cooling options would say of such a core</summary>
      <p class="quiet">Of the predicted core, without any thermometer's error. Only a measured core is judged.</p>
      <Sheet
        caption="Rules held against the predicted core"
        rows={shown.result.ifMeasured}
        rowKey={(f) => f.rule}
        columns={[
          { head: 'Rule', names: true, cell: (f) => <a href={`/rules/${encodeURIComponent(f.rule)}`}>{f.title}</a> },
          { head: 'Would be', cell: (f) => <VerdictMark verdict={f.verdict} label={would[f.verdict]} /> },
          { head: 'Why', cell: (f) => f.because || BLANK },
        ]}
      />
    </details>
  )
}
