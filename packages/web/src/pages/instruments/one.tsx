import { useResource } from '../../state/resource.ts'
import type { EntryView, InstrumentView, KitchenView } from '../../state/views.ts'
import { apart, day, degrees, measured } from '../../ui/figures.ts'
import { Shown } from '../../ui/notes.tsx'
import { Photos } from '../../ui/photos.tsx'
import { PrintRecord } from '../../ui/print-record.tsx'
import { Sheet } from '../../ui/sheet.tsx'
import { spoken } from '../../ui/words.ts'
import { CheckForm } from './check-form.tsx'
import { Doubts } from './doubts.tsx'
import { Drift } from './drift.tsx'
import { Due } from './instruments.tsx'
import { paper } from '../../ui/paper.ts'

/** One instrument: when it is due, a check to record, and the checks so far. */
export function OneInstrument({ code, kitchen }: { code: string; kitchen: KitchenView }) {
  const instrument = kitchen.instruments.find((i) => i.instrument === code)
  const checks = useResource<{ entries: readonly EntryView[] }>(
    `/api/entries?order=desc&limit=200&kind=instrument.check&about=${encodeURIComponent(code)}`,
  )
  if (!instrument) return <h1>The kitchen has no instrument {code}</h1>
  return (
    <>
      <p>
        <a href="/instruments">All instruments</a>
      </p>
      <div class="head-line">
        <h1>{instrument.name}</h1>
        <div class="row">
          <a class="button" href={paper(`instrument/${encodeURIComponent(code)}`)} target="_blank" rel="noreferrer">
            Print its checks
          </a>
          <PrintRecord of="instrument" id={code} />
        </div>
      </div>
      <Facts instrument={instrument} />
      <Doubts instrument={instrument.instrument} />
      <h2>Record a check</h2>
      <CheckForm instrument={instrument} kitchen={kitchen.kitchen} />
      <h2>Checks so far</h2>
      <Shown of={checks.value} what="the checks">
        {({ entries }) =>
          entries.length === 0 ? (
            <p class="quiet">None yet.</p>
          ) : (
            <>
              <Drift name={instrument.name} checks={entries} />
              <Sheet
                caption={`Checks of ${instrument.name}`}
                rows={entries}
                rowKey={(e) => e.seq}
                columns={[
                  {
                    head: 'On',
                    keep: true,
                    names: true,
                    cell: (e) => <a href={`/record/${e.seq}`}>{day(String(e.body['on']))}</a>,
                  },
                  { head: 'How', cell: (e) => spoken(String(e.body['method'])) },
                  {
                    head: 'Reference',
                    num: true,
                    cell: (e) => measured(Number(e.body['reference']), String(e.body['unit'])),
                  },
                  {
                    head: 'Reading',
                    num: true,
                    cell: (e) => measured(Number(e.body['reading']), String(e.body['unit'])),
                  },
                  {
                    head: 'Allowed, ±',
                    num: true,
                    cell: (e) => apart(Number(e.body['tolerance']), String(e.body['unit'])),
                  },
                ]}
              />
            </>
          )
        }
      </Shown>
      <Photos of="instrument" id={code} />
    </>
  )
}

function Facts({ instrument: i }: { instrument: InstrumentView }) {
  return (
    <dl class="facts">
      <dt>Kind and code</dt>
      <dd>
        {spoken(i.type)}, {i.instrument}
      </dd>
      {i.readabilityG !== undefined && (
        <>
          <dt>Smallest step</dt>
          <dd>{i.readabilityG} g</dd>
        </>
      )}
      {i.accuracyClass && (
        <>
          <dt>Accuracy class</dt>
          <dd>
            {i.accuracyClass}
            {i.divisionG !== undefined && `, e = ${i.divisionG} g`}
          </dd>
        </>
      )}
      {i.resolutionC !== undefined && (
        <>
          <dt>Smallest step</dt>
          <dd>{degrees(i.resolutionC)}</dd>
        </>
      )}
      {i.toleranceG !== undefined && (
        <>
          <dt>Largest error allowed</dt>
          <dd>± {i.toleranceG} g</dd>
        </>
      )}
      {i.toleranceC !== undefined && (
        <>
          <dt>Largest error allowed</dt>
          <dd>± {degrees(i.toleranceC)}</dd>
        </>
      )}
      <dt>Check</dt>
      <dd>
        <Due instrument={i} /> (every {i.checkEveryDays} days)
      </dd>
    </dl>
  )
}
