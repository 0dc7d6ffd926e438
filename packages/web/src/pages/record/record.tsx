import type { PageProps } from '../../app.tsx'
import { CorrectEntry } from './correct.tsx'
import { Entries } from './entries.tsx'
import { OneEntry } from './one-entry.tsx'
import { TraceLot } from './trace-lot.tsx'
import { TracePack } from './trace-pack.tsx'
import { TraceStart } from './trace-start.tsx'

/** Entries, one entry, its correction, and traces forward and back. */
export function RecordPage({ path, kitchen }: PageProps) {
  const [first, second, third] = path
  if (first === 'trace' && second === 'lot' && third) return <TraceLot key={third} lot={third} />
  if (first === 'trace' && second === 'pack' && third) return <TracePack key={third} pack={third} />
  if (first === 'trace') return <TraceStart />
  if (first && second === 'correct') return <CorrectEntry key={first} seq={first} />
  if (first) return <OneEntry key={first} seq={first} kitchen={kitchen} />
  return <Entries kitchen={kitchen} />
}
