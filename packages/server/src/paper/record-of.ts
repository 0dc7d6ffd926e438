import type { BatchRecord, Ledger } from '@forcemeat/ledger'
import { judged } from '../judge/judged.ts'
import type { CookAndChill, PaperInstrument } from './cook-and-chill.ts'
import { curvesOf } from './curves-of.ts'
import type { PaperSize } from './frame.ts'
import { frameOf } from './frame-of.ts'

const instrumentOf = (i: BatchRecord['instruments'][number]): PaperInstrument => {
  const check = i.lastCheck
  const error = check && `${check.error > 0 ? '+' : check.error < 0 ? '−' : ''}${Math.abs(check.error)} ${check.unit}`
  return {
    code: i.instrument,
    name: i.name,
    type: i.type,
    ...(check
      ? { lastCheck: `${check.on}, ${check.method}, ${error}${check.withinTolerance ? '' : ': out of tolerance'}` }
      : {}),
    ...(i.nextDue === undefined ? {} : { due: i.standing === 'overdue' ? `${i.nextDue}: overdue` : i.nextDue }),
  }
}

/** What the cook-and-chill record says of a batch of the record. */
export async function recordOf(ledger: Ledger, record: BatchRecord, size: PaperSize): Promise<CookAndChill> {
  const judgement = await judged(ledger, record)
  const { findings, verdict } = judgement
  const people = await ledger.people()
  const name = (code: string): string => people.find((p) => p.person === code)?.name ?? code
  const last = record.decisions.at(-1)
  const frame = await frameOf(ledger, record, size)
  return {
    ...frame,
    recipe: { name: record.recipeBody.name, code: record.recipe, version: record.version },
    on: record.on,
    jurisdictions: record.jurisdictions,
    curves: await curvesOf(ledger, record, judgement, name, frame.kitchen.units),
    findings,
    verdict,
    instruments: record.instruments.map(instrumentOf),
    ...(last
      ? {
          decision: {
            decision: last.decision,
            reasons: last.reasons,
            by: name(last.by),
            at: last.at,
            signed: last.signed,
          },
        }
      : {}),
  }
}
