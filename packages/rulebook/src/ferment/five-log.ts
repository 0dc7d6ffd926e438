import type { FiveLogQuestion } from '@forcemeat/craft/ferment/five-log'
import type { Finding } from '@forcemeat/craft/finding'
import { CHAMBER_ABOVE, validatedProcesses, type ValidatedProcess } from '../../data/ferment/five-log.ts'
import { heading } from '../evaluate.ts'

/** Degrees turned from Fahrenheit carry rounding; this much decides nothing. */
const ROUNDING = 0.05

type Part = { readonly what: string; readonly sure: boolean; readonly possible: boolean }

/** Within its error, a figure is surely or possibly on the right side of a limit. */
const side = (what: string, margin: number, error: number): Part => ({
  what,
  sure: margin - error >= -1e-9,
  possible: margin + error >= -1e-9,
})

/** Whether each asked hold is met, in order, by one of the holds that followed. */
function holds(process: ValidatedProcess, q: FiveLogQuestion, error: number): boolean {
  let at = 0
  return process.heat.every(({ c, hours, core }) => {
    const found = q.heat.findIndex(
      (h, i) => i >= at && (!core || h.core === true) && h.tempC - error >= c - ROUNDING && h.hours >= hours - 1e-9,
    )
    at = found + 1
    return found >= 0
  })
}

const spell = ({ heat }: ValidatedProcess): string =>
  heat
    .map(
      ({ c, hours, core }) => `${c} °C${core ? ' inside' : ''}${hours > 0 ? ` for ${Number(hours.toFixed(2))} h` : ''}`,
    )
    .join(', then ')

/** The finding of one published combination. */
export function judgeProcess(process: ValidatedProcess, q: FiveLogQuestion): Finding {
  const { rule, chamberC, phAtMost, phAtLeast, overMm, upToMm } = process
  const parts: Part[] = [
    side(`a chamber of at least ${chamberC} °C`, q.chamberC - chamberC, q.toleranceC),
    side(`a chamber of at most ${chamberC + CHAMBER_ABOVE} °C`, chamberC + CHAMBER_ABOVE - q.chamberC, q.toleranceC),
    ...(phAtMost === undefined ? [] : [side(`pH at most ${phAtMost}`, phAtMost - q.endPh, q.phTolerance)]),
    ...(phAtLeast === undefined ? [] : [side(`pH at least ${phAtLeast}`, q.endPh - phAtLeast, q.phTolerance)]),
    side(`a diameter of at most ${upToMm} mm`, upToMm - q.casingMm, 0),
    side(`a diameter over ${overMm} mm`, q.casingMm > overMm ? 0 : -1, 0),
    { what: spell(process), sure: holds(process, q, q.toleranceC), possible: holds(process, q, -q.toleranceC) },
  ]
  const head = heading(rule, rule.values[0]!)
  const never = parts.filter((p) => !p.possible)
  const unsure = parts.filter((p) => !p.sure && p.possible)
  if (never.length > 0)
    return {
      ...head,
      verdict: 'cannot-tell',
      because: `not this combination: it asks for ${never.map((p) => p.what).join(' and ')}`,
      settle: 'another published combination, a study of this process, or tests of finished lots',
    }
  if (unsure.length > 0)
    return {
      ...head,
      verdict: 'cannot-tell',
      because: `met only within the error of the instrument: ${unsure.map((p) => p.what).join(' and ')}`,
      settle: 'a finer instrument, or a process further inside',
    }
  if (!q.phCounts)
    return {
      ...head,
      verdict: 'cannot-tell',
      because: 'the pH meter was not calibrated that day',
      settle: 'a pH taken again with a calibrated meter',
    }
  return { ...head, verdict: 'pass', because: `followed: ${parts.map((p) => p.what).join(', ')}` }
}

/** A finding for each published combination; one that was not followed proves nothing and is never a fail. */
export const judgeFiveLog = (q: FiveLogQuestion): Finding[] => validatedProcesses.map((p) => judgeProcess(p, q))
