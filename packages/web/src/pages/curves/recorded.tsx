import { overall } from '@forcemeat/craft/finding'
import { useMemo } from 'preact/hooks'
import { CurvePlot } from '../../plot/curve-plot.tsx'
import { useResource } from '../../state/resource.ts'
import type { BatchRecord, KitchenView } from '../../state/views.ts'
import { system } from '../../state/who.ts'
import { degrees, instant, number } from '../../ui/figures.ts'
import { Caution, Shown } from '../../ui/notes.tsx'
import { Findings, VerdictMark } from '../../ui/verdict.tsx'
import { AlsoOn } from './also-on.tsx'
import { CorrectCurve } from './correct-curve.tsx'
import { Correctives } from './correctives.tsx'
import { Overlay } from './overlay.tsx'
import { HowRead } from './reading.tsx'
import { ReadingsTable } from './readings-table.tsx'
import { drawsHumidity, humiditySeries, recordedPicture, type CurveView } from './recorded-view.ts'

/** When the log began, by its own clock and as corrected; a file's stamp is shown as it is written. */
function Began({ view }: { view: CurveView }) {
  const { firstStamp, curve } = view
  // A log without dates counts from its own start.
  if (firstStamp === undefined || firstStamp < 86_400 * 365) return null
  const shown = (s: number): string => new Date(s * 1000).toISOString().slice(0, 16).replace('T', ' ')
  const off = curve.clockOffsetMinutes ?? 0
  return (
    <p class="quiet">
      Log begins {shown(firstStamp)} by its own clock
      {off !== 0 && (
        <>
          , corrected by {number(off, 6)} min to {shown(firstStamp + 60 * off)}
        </>
      )}
      .
    </p>
  )
}

function Offsets({ view }: { view: CurveView }) {
  const moved = view.curve.channels.filter((c) => (c.offsetC ?? 0) !== 0)
  if (moved.length === 0) return null
  return (
    <p class="quiet">
      Corrected: {moved.map((c) => `${c.column} by ${degrees(c.offsetC)}`).join('; ')}. The verdicts are of the
      corrected readings.
    </p>
  )
}

function Drawn({ view, record, kitchen }: { view: CurveView; record: BatchRecord; kitchen: KitchenView }) {
  const { curve } = view
  const us = system.value
  const picture = useMemo(
    () => recordedPicture(view, `${view.channels.length > 0 ? 'Temperatures' : 'Humidity'} of ${curve.fileName}`),
    [view, us],
  )
  const limits = view.findings.filter((f) => f.weight === 'limit')
  const verdict = overall(limits)
  return (
    <>
      <p class="standing">
        <VerdictMark verdict={verdict} />{' '}
        {limits.find((f) => f.verdict === verdict)?.because ?? 'no rule could be held against this log'}
      </p>
      {view.questions.map((q) => (
        <p key={q.about} class="faults" role="alert">
          {q.text} Answer it below, where the curve is corrected.
        </p>
      ))}
      {picture.minutes.length > 1 && <CurvePlot {...picture} />}
      {(curve.purpose === 'ferment' || curve.purpose === 'dry') && (
        <p>
          It counts for the{' '}
          <a href={`/curves/${curve.purpose}/${encodeURIComponent(curve.batch)}`}>
            {curve.purpose === 'ferment' ? 'fermentation' : 'drying'} of {curve.batch}
          </a>
          {view.humidity.length > 0 && ', with its humidity'}.
        </p>
      )}
      {curve.note && <p>{curve.note}</p>}
      <AlsoOn logs={record.sharedLogs} seq={curve.seq} />
      <Began view={view} />
      <Offsets view={view} />
      <Caution>
        A log reduction is an estimate; the findings hold the log against the published tables. A qualified person and
        your local code decide.
      </Caution>
      <div class="two">
        <section>
          <h2>Findings</h2>
          <Findings findings={view.findings} />
        </section>
        <Correctives findings={view.findings} />
      </div>
      <ReadingsTable
        minutes={picture.minutes}
        // What the plot has no axis for stands in the table.
        series={drawsHumidity(view) ? picture.series : [...picture.series, ...humiditySeries(view)]}
        unit={picture.temperatureUnit}
      />
      <CorrectCurve key={curve.seq} curve={curve} kitchen={kitchen} />
      <Overlay recipe={record.recipe} batch={curve.batch} />
      <HowRead judged={view} />
      <p class="quiet">
        Recorded {instant(curve.at)} as <a href={`/record/${curve.seq}`}>entry {curve.seq}</a>.
      </p>
    </>
  )
}

/** A curve as the batch's record holds it. */
export function RecordedCurve({ batch, seq, kitchen }: { batch: string; seq: string; kitchen: KitchenView }) {
  const at = `/api/batches/${encodeURIComponent(batch)}`
  const record = useResource<BatchRecord>(at).value
  const view = useResource<CurveView>(`${at}/curves/${encodeURIComponent(seq)}`).value
  return (
    <>
      <h1>
        Curve of <a href={`/batches/${encodeURIComponent(batch)}`}>{batch}</a>
      </h1>
      <Shown of={view} what="the curve">
        {(v) => (record.value ? <Drawn key={v.curve.seq} view={v} record={record.value} kitchen={kitchen} /> : null)}
      </Shown>
    </>
  )
}
