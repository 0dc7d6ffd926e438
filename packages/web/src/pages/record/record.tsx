import type { PageProps } from '../../app.tsx'
import { Charts } from './charts.tsx'
import { CorrectEntry } from './correct.tsx'
import { Deviations, OneDeviation, OpenDeviation } from './deviations.tsx'
import { Entries } from './entries.tsx'
import { HazardPlanPage } from './hazard-plan.tsx'
import { OneEntry } from './one-entry.tsx'
import { RecordParts } from './parts.tsx'
import { OneRecall, RecallStart } from './recall.tsx'
import { TraceLot } from './trace-lot.tsx'
import { TracePack } from './trace-pack.tsx'
import { TraceStart } from './trace-start.tsx'

const known = new Set(['', 'trace', 'recall', 'deviations', 'charts', 'hazard-plan'])

/** Entries, one entry, its correction; traces, recalls, deviations. */
export function RecordPage(props: PageProps) {
  const [first = ''] = props.path
  return (
    <>
      {known.has(first) && <RecordParts at={first} />}
      <Part {...props} />
    </>
  )
}

function Part({ path, kitchen }: PageProps) {
  const [first, second, third] = path
  if (first === 'trace' && second === 'lot' && third) return <TraceLot key={third} lot={third} />
  if (first === 'trace' && second === 'pack' && third) return <TracePack key={third} pack={third} />
  if (first === 'trace') return <TraceStart />
  if (first === 'recall' && second && third) return <OneRecall key={`${second} ${third}`} type={second} id={third} />
  if (first === 'recall') return <RecallStart />
  if (first === 'deviations' && second === 'new') return <OpenDeviation />
  if (first === 'deviations' && second) return <OneDeviation key={second} code={second} kitchen={kitchen} />
  if (first === 'deviations') return <Deviations />
  if (first === 'hazard-plan') return <HazardPlanPage />
  if (first === 'charts') return <Charts />
  if (first && !/^[1-9]\d{0,11}$/.test(first)) return <NoEntry asked={first} />
  if (first && second === 'correct') return <CorrectEntry key={first} seq={first} />
  if (first) return <OneEntry key={first} seq={first} kitchen={kitchen} />
  return <Entries kitchen={kitchen} />
}

function NoEntry({ asked }: { asked: string }) {
  return (
    <>
      <p>
        <a href="/record">All entries</a>
      </p>
      <h1>There is no such entry</h1>
      <p>
        “{asked.slice(0, 40)}” is not the number of an entry. Entries are numbered from 1, in the order they were
        recorded.
      </p>
    </>
  )
}
