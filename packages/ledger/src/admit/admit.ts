import type { Fault } from '@forcemeat/craft/calculation'
import type { Sql } from '../dialect/store.ts'
import type { Draft, Entry } from '../facts.ts'
import type { PlanCache } from '../views/project.ts'
import { targetOf, withdrawalHolds } from './corrects.ts'
import { checks } from './kinds.ts'
import { mustBeKnown, type Admission } from './report.ts'

/** The first entries name the kitchen and its people before anyone is known. */
async function authorIsKnown(sql: Sql, draft: Draft, fault: Admission['fault']): Promise<void> {
  const nobodyYet = (await sql.all(`select 1 from fact where kind = 'person.add' limit 1`)).length === 0
  if (nobodyYet && (draft.kind === 'kitchen.set' || draft.kind === 'person.add')) return
  await mustBeKnown({ sql, fault }, 'by', 'person', draft.by)
}

/** Hold one draft against the record as it stands; its faults, none where it may be recorded. */
export async function admit(sql: Sql, draft: Draft, plans: PlanCache): Promise<readonly Fault[]> {
  const faults: Fault[] = []
  const fault = (path: string, message: string) => void faults.push({ path, message })
  await authorIsKnown(sql, draft, fault)
  const old: Entry | undefined = await targetOf({ sql, fault }, draft)
  const corrects = draft.kind === 'entry.withdraw' ? draft.body.entry : draft.corrects
  if (corrects !== undefined && !old) return faults
  const admission = { sql, draft, old, plans, fault } as unknown as Admission
  if (draft.kind === 'entry.withdraw') {
    if (old) await withdrawalHolds(admission as Admission<'entry.withdraw'>, old)
  } else await (checks[draft.kind] as (a: Admission) => Promise<void>)(admission)
  return faults
}
