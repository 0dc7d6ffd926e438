import type { PageProps } from '../../app.tsx'
import type { InstrumentView } from '../../state/views.ts'
import { day } from '../../ui/figures.ts'
import { LongList } from '../../ui/long-list.tsx'
import { Sheet } from '../../ui/sheet.tsx'
import { spoken } from '../../ui/words.ts'
import { AddInstrument } from './add.tsx'
import { OneInstrument } from './one.tsx'

/** Scales, thermometers and the rest, each with when its next check is due. */
export function Instruments({ path, kitchen }: PageProps) {
  const [first] = path
  if (first === 'new') return <AddInstrument />
  if (first) return <OneInstrument key={first} code={first} kitchen={kitchen} />
  return (
    <>
      <div class="head-line">
        <h1>Instruments</h1>
        <a class="button main" href="/instruments/new">
          Add an instrument
        </a>
      </div>
      <p>
        A reading counts only as far as its instrument is checked. One past its date makes every finding that rests on
        it “cannot tell”.
      </p>
      <LongList
        items={kitchen.instruments}
        what="instruments"
        text={(i) => `${i.name} ${i.instrument} ${i.type}`}
        empty="No instrument yet. Add the scales and thermometers first: the weigh sheet asks which scale a cure is weighed on."
      >
        {(shown) => (
          <Sheet
            caption="Instruments"
            rows={shown}
            rowKey={(i) => i.instrument}
            columns={[
              {
                head: 'Name',
                names: true,
                cell: (i) => <a href={`/instruments/${encodeURIComponent(i.instrument)}`}>{i.name}</a>,
              },
              { head: 'Code', cell: (i) => i.instrument },
              { head: 'Kind', cell: (i) => spoken(i.type) },
              { head: 'Last check', cell: (i) => (i.lastCheck ? day(i.lastCheck.on) : 'never') },
              { head: 'Check', cell: (i) => <Due instrument={i} /> },
            ]}
          />
        )}
      </LongList>
    </>
  )
}

const standings: Readonly<Record<InstrumentView['standing'], string>> = {
  'in-date': 'in date',
  due: 'due soon',
  overdue: 'overdue',
  'never-checked': 'never checked',
  'out-of-tolerance': 'read too far off',
  retired: 'out of use',
}

/** Whether an instrument may be trusted today, and when it is next checked. */
export function Due({ instrument: i }: { instrument: InstrumentView }) {
  const fine = i.standing === 'in-date' || i.standing === 'retired' || i.standing === 'due'
  return (
    <>
      <span class={fine ? undefined : 'late'}>{standings[i.standing]}</span>
      {i.nextDue && i.standing !== 'retired' && `, ${i.standing === 'overdue' ? 'since' : 'next on'} ${day(i.nextDue)}`}
      {i.provesNothing && (
        <span class="late">
          {' '}
          ({day(i.provesNothing.on)}: {i.provesNothing.because})
        </span>
      )}
    </>
  )
}
