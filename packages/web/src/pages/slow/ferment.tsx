import type { FermentView, PhReading } from '@forcemeat/server/slow/ferment-view'
import type { KitchenView } from '../../state/views.ts'
import { instant, number } from '../../ui/figures.ts'
import { Caution, Shown } from '../../ui/notes.tsx'
import { Sheet } from '../../ui/sheet.tsx'
import { Findings } from '../../ui/verdict.tsx'
import { Correctives } from '../curves/correctives.tsx'
import { personName } from '../record/about.ts'
import { DegreeHours, HoursLeft, StaphGrowth } from './ferment-count.tsx'
import { FermentPlots } from './ferment-plots.tsx'
import { ByHand } from './chamber-by-hand.tsx'
import { inDegrees } from './lines.ts'
import { PhForm } from './ph-form.tsx'
import { useSlowView } from './use-view.ts'

function Readings({ readings, kitchen }: { readings: readonly PhReading[]; kitchen: KitchenView }) {
  if (readings.length === 0) return null
  const nameOf = (id: string | undefined): string =>
    id === undefined ? 'not named' : (kitchen.instruments.find((i) => i.instrument === id)?.name ?? id)
  return (
    <Sheet
      caption="pH readings"
      rows={readings.toReversed()}
      rowKey={(r) => r.seq}
      columns={[
        { head: 'Taken', keep: true, names: true, cell: (r) => instant(r.taken) },
        { head: 'pH', num: true, cell: (r) => number(r.ph, 4) },
        { head: 'Meter', cell: (r) => nameOf(r.instrument) },
        {
          head: 'Counts',
          cell: (r) => (r.calibrated ? r.because : <span class="late">no: {r.because}</span>),
        },
        { head: 'By', cell: (r) => personName(kitchen, r.by) },
        { head: 'Note', cell: (r) => [r.piece, r.note].filter(Boolean).join(', ') },
        { head: 'Entry', num: true, cell: (r) => <a href={`/record/${r.seq}`}>{r.seq}</a> },
      ]}
    />
  )
}

/** A recorder may post several times a second; the whole is counted anew each time. */
const FED_EVERY_MS = 2000

/** A count over its limit asks for what is published to be done, whoever's memory the limit rests on. */
const opened = (view: FermentView) =>
  view.findings.map((f) =>
    f.rule.endsWith('.ferment.degree-hours') && f.margin !== undefined && f.margin < 0
      ? { ...f, verdict: 'fail' as const }
      : f,
  )

function Body({ view, kitchen }: { view: FermentView; kitchen: KitchenView }) {
  return (
    <>
      <HoursLeft view={view} />
      {view.notes.length > 0 && (
        <ul class="quiet">
          {view.notes.map((n) => (
            <li key={n}>{inDegrees(n)}</li>
          ))}
        </ul>
      )}
      <div class="two live">
        <div>
          <FermentPlots view={view} />
        </div>
        <div>
          <h2>Type a pH</h2>
          <PhForm batch={view.batch} kitchen={kitchen} />
          <ByHand batch={view.batch} live={view.live} kitchen={kitchen} />
          <DegreeHours systems={view.systems} />
          <StaphGrowth view={view} />
        </div>
      </div>
      <h2>pH readings</h2>
      <Readings readings={view.readings} kitchen={kitchen} />
      <Caution>
        The count and the findings tell of Staphylococcus aureus only. What makes raw pork safe, and what the acid does
        to other organisms, is judged with the batch; a qualified person and your local code decide.
      </Caution>
      <section>
        <h2>Findings</h2>
        <Findings findings={view.findings} />
      </section>
      <Correctives findings={opened(view)} />
    </>
  )
}

/** A batch while it sours and after: chamber, pH, degree-hours and what they leave open. */
export function Ferment({ batch, kitchen }: { batch: string; kitchen: KitchenView }) {
  const shown = useSlowView<FermentView>(batch, 'ferment', FED_EVERY_MS)
  const at = encodeURIComponent(batch)
  return (
    <>
      <div class="head-line">
        <h1>
          Fermentation of <a href={`/batches/${at}`}>{batch}</a>{' '}
          <span class="where">{shown.value?.recipeName ?? ''}</span>
        </h1>
        <a class="button" href={`/curves/dry/${at}`}>
          Its drying
        </a>
      </div>
      <Shown of={shown} what="the fermentation">
        {(view) => <Body view={view} kitchen={kitchen} />}
      </Shown>
    </>
  )
}
