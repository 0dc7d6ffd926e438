import type { BatchRecord } from '@forcemeat/ledger'
import { paperDay } from './dates.ts'
import type { PaperDecision, PaperInstrument } from './signed-off.ts'

/** An instrument with its last check, in words. */
export const instrumentOf = (i: BatchRecord['instruments'][number]): PaperInstrument => {
  const check = i.lastCheck
  const empty = i.provesNothing && `${paperDay(i.provesNothing.on)}: ${i.provesNothing.because}`
  const error = check && `${check.error > 0 ? '+' : check.error < 0 ? '−' : ''}${Math.abs(check.error)} ${check.unit}`
  return {
    code: i.instrument,
    name: i.name,
    type: i.type,
    ...(check
      ? {
          lastCheck: `${paperDay(check.on)}, ${check.method}, ${error}${check.withinTolerance ? '' : ': out of tolerance'}${empty ? `; ${empty}` : ''}`,
        }
      : empty
        ? { lastCheck: `never; ${empty}` }
        : {}),
    ...(i.nextDue === undefined ? {} : { due: i.standing === 'overdue' ? `${i.nextDue}: overdue` : i.nextDue }),
  }
}

/** The decision that stands, the latest where there are several; nothing where nobody has decided. */
export function decisionOf(
  { decisions }: Pick<BatchRecord, 'decisions'>,
  name: (code: string) => string,
): { decision?: PaperDecision } {
  const last = decisions.at(-1)
  if (!last) return {}
  const { decision, reasons, at, signed } = last
  return { decision: { decision, reasons, by: name(last.by), at, signed } }
}
