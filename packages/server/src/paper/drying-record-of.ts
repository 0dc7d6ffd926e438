import { course } from '@forcemeat/craft/dry/course'
import { courseInputAt } from '@forcemeat/craft/dry/outlook'
import type { BatchRecord, Ledger } from '@forcemeat/ledger'
import { judged } from '../judge/judged.ts'
import { chamberLogs } from '../slow/chamber.ts'
import { dryView, type DryView } from '../slow/dry-view.ts'
import { fermentView } from '../slow/ferment-view.ts'
import type { DryingRecord } from './drying-record.ts'
import type { PaperSize } from './frame.ts'
import { frameOf } from './frame-of.ts'
import { decisionOf, instrumentOf } from './signed-off-of.ts'

const DAY = 86_400_000

/** What the model foretells of the ready day, from the logged air, the planned air after it and the weighings. */
function forecastOf(view: DryView): Pick<DryingRecord, 'forecast'> {
  const { piece, target, planned, log, marked, start } = view
  if (!piece || Object.keys(target).length === 0 || planned.length === 0) return {}
  const { readyDay, warnings } = course(courseInputAt({ ...piece, target, planned, log, losses: marked.losses }).input)
  if (!readyDay) return {}
  const date = (day: number): string => new Date(Date.parse(start) + day * DAY).toISOString().slice(0, 10)
  return {
    forecast: {
      early: date(readyDay.early),
      likely: date(readyDay.likely),
      ...(readyDay.late === undefined ? {} : { late: date(readyDay.late) }),
      words: [
        `By the model, from ${marked.losses.length} weighing${marked.losses.length === 1 ? '' : 's'} and the air so far and as planned.`,
        ...warnings,
      ].join(' '),
    },
  }
}

/** What the drying record says of a batch of the record. */
export async function dryingRecordOf(ledger: Ledger, record: BatchRecord, size: PaperSize): Promise<DryingRecord> {
  const [judgement, soured, all, rooms, people, frame] = await Promise.all([
    judged(ledger, record),
    chamberLogs(ledger, record, ['ferment']),
    chamberLogs(ledger, record, ['ferment', 'dry']),
    ledger.rooms(),
    ledger.people(),
    frameOf(ledger, record, size),
  ])
  const name = (code: string): string => people.find((p) => p.person === code)?.name ?? code
  const dry = dryView({ record, judgement, logs: all, rooms })
  return {
    ...frame,
    recipe: { name: record.recipeBody.name, code: record.recipe, version: record.version },
    on: record.on,
    jurisdictions: record.jurisdictions,
    ferment: fermentView({ record, judgement, logs: soured }),
    dry,
    ...forecastOf(dry),
    findings: judgement.findings,
    verdict: judgement.verdict,
    instruments: record.instruments.map(instrumentOf),
    ...decisionOf(record, name),
    name,
  }
}
