import type { Chamber } from './chamber.ts'
import type { BatchFacts } from './facts.ts'
import { trustOn } from './instrument-days.ts'

/** How far off the thermometers of a chamber may be until an instant, °C, and what keeps one from being believed. */
export function thermometersOf(
  facts: BatchFacts,
  chamber: Pick<Chamber, 'channels'>,
  until: number,
): { readonly toleranceC: number; readonly doubt?: { readonly because: string; readonly settle: string } } {
  const ended = new Date(until * 1000).toISOString().slice(0, 10)
  const trusts = chamber.channels
    .filter((c) => c.from <= ended)
    .flatMap((c) =>
      [c.from, c.to < ended ? c.to : ended].map((day) =>
        trustOn(facts, c.instrument, day, 'thermometer of the chamber'),
      ),
    )
  const known = trusts.flatMap((t) => (t.ok ? [t.instrument] : []))
  const toleranceC = Math.max(0, ...known.map((i) => i.toleranceC ?? 0))
  const distrusted = trusts.find((t) => !t.ok)
  if (distrusted && !distrusted.ok)
    return { toleranceC, doubt: { because: distrusted.because, settle: distrusted.settle } }
  const untold = known.find((i) => i.toleranceC === undefined)
  return untold
    ? {
        toleranceC,
        doubt: {
          because: `how far ${untold.name} may be off is not known`,
          settle: `enter the largest error of ${untold.name}`,
        },
      }
    : { toleranceC }
}
