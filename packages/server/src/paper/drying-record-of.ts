import { course } from '@forcemeat/craft/dry/course'
import { zoneOf, type BatchRecord, type Ledger } from '@forcemeat/ledger'
import { judged } from '../judge/judged.ts'
import { chamberLogs } from '../slow/chamber.ts'
import { dryView, type DryView } from '../slow/dry-view.ts'
import { fermentView } from '../slow/ferment-view.ts'
import { courseInputOf, datesOf } from '../slow/ready.ts'
import type { DryingRecord } from './drying-record.ts'
import type { PaperAsked } from './asked.ts'
import { frameOf } from './frame-of.ts'
import { decisionOf, instrumentOf } from './signed-off-of.ts'

/** What the model foretells of the day the targets not met yet are met, from the logged air, the planned air after it and the weighings. */
export function forecastOf(view: DryView): Pick<DryingRecord, 'forecast'> {
  const input = courseInputOf(view)
  if (!input || Object.keys(view.left).length === 0) return {}
  const { readyDay, warnings } = course(input)
  if (!readyDay) return {}
  const { losses } = view.marked
  return {
    forecast: {
      ...datesOf(view, readyDay),
      words: [
        `By the model, from ${losses.length} weighing${losses.length === 1 ? '' : 's'} and the air so far and as planned${view.met.length > 0 ? ', for the targets not met as measured' : ''}.`,
        ...warnings,
      ].join(' '),
    },
  }
}

/** What the drying record says of a batch of the record. */
export async function dryingRecordOf(ledger: Ledger, record: BatchRecord, paper: PaperAsked): Promise<DryingRecord> {
  const [judgement, soured, all, rooms, people, frame, kitchen] = await Promise.all([
    judged(ledger, record),
    chamberLogs(ledger, record, ['ferment']),
    chamberLogs(ledger, record, ['ferment', 'dry']),
    ledger.rooms(),
    ledger.people(),
    frameOf(ledger, record, paper),
    ledger.kitchen(),
  ])
  const name = (code: string): string => people.find((p) => p.person === code)?.name ?? code
  const later = all.filter((l) => !soured.some((s) => s.seq === l.seq))
  const dry = dryView({ record, judgement, logs: all, rooms, timeZone: zoneOf(kitchen) })
  return {
    ...frame,
    recipe: { name: record.recipeBody.name, code: record.recipe, version: record.version },
    on: record.on,
    jurisdictions: record.jurisdictions,
    ferment: fermentView({ record, judgement, logs: soured, later, timeZone: zoneOf(kitchen) }),
    dry,
    ...forecastOf(dry),
    findings: judgement.findings,
    verdict: judgement.verdict,
    instruments: record.instruments.map(instrumentOf),
    ...decisionOf(record, name),
    name,
  }
}
