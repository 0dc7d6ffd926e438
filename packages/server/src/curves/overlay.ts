import { trackLog } from '@forcemeat/craft/heat/track'
import type { BatchRecord, Ledger } from '@forcemeat/ledger'
import { coolingMarks } from '@forcemeat/rulebook/cooling/judge'
import { coolingSpans } from '@forcemeat/rulebook/cooling/spans'
import { judged } from '../judge/judged.ts'
import { channelsOf } from './recorded.ts'
import { thin } from './thin.ts'

/** Batches laid over one another. */
export const mostOverlaid = 20
/** Points of each core that are drawn. */
const points = 240
/** The option whose stages the chills are measured through: it speaks for any product. */
const measuredBy = 'us.fsis.cooling.option-1'

export type OverlaidBatch = {
  readonly batch: string
  readonly on: string
  readonly state: string
  readonly curve: number
  readonly probe: string
  /** Time the centre was between the temperatures of the come-up rule, minutes; absent where the log does not show it all. */
  readonly comeUpMinutes?: number
  /** Minutes through each stage of the chill; a stage the log does not see the end of is left out. */
  readonly chill: readonly { readonly shown: string; readonly minutes: number; readonly maxMinutes: number }[]
  readonly peakC: number
  readonly logReduction?: number
  /** Minutes from the first reading, °C. */
  readonly core: readonly (readonly [number, number])[]
}

/** One batch by the probe of its first cook log that got least heat. */
async function overlaid(ledger: Ledger, record: BatchRecord): Promise<OverlaidBatch | undefined> {
  const curve = record.curves.find((c) => c.purpose === 'cook-and-chill' || c.purpose === 'cook')
  if (!curve) return undefined
  const { channels } = await judged(ledger, record)
  const least = channels
    .filter((c) => c.seq === curve.seq && c.lethality)
    .toSorted((a, b) => a.lethality!.logReduction - b.lethality!.logReduction)[0]
  const log = (await channelsOf(ledger, { curves: [curve] })).find((c) => c.column === least?.column)?.log
  if (!least?.lethality || !log || log.every((r) => r.coreC === null)) return undefined
  const track = trackLog(log, {
    marksC: coolingMarks,
    ...(curve.chillStartMinute === undefined ? {} : { chillStartMinute: curve.chillStartMinute }),
  })
  const comeUp = least.lethality.findings.find((f) => f.rule === 'us.fsis.lethality.come-up')?.measured
  const kept = thin({ minutes: log.map((r) => r.minute), channels: [{ values: log.map((r) => r.coreC) }] }, points)
  return {
    batch: record.batch,
    on: record.on,
    state: record.state,
    curve: curve.seq,
    probe: least.column,
    ...(comeUp === undefined ? {} : { comeUpMinutes: comeUp }),
    chill: coolingSpans(track, measuredBy).flatMap((s) =>
      s.finished ? [{ shown: s.shown, minutes: s.toMinute - s.fromMinute, maxMinutes: s.maxMinutes }] : [],
    ),
    peakC: track.peakC,
    logReduction: least.lethality.logReduction,
    core: kept.flatMap((i) => {
      const { minute, coreC } = log[i]!
      return coreC === null ? [] : [[Number(minute.toFixed(3)), Number(coreC.toFixed(3))] as const]
    }),
  }
}

/** The last batches of a recipe that have a cook log, the newest first: to see a house or a chiller drift. */
export async function overlayOf(ledger: Ledger, recipe: string, most = mostOverlaid): Promise<OverlaidBatch[]> {
  const found: OverlaidBatch[] = []
  const batches = await ledger.batches({ recipe, limit: 3 * mostOverlaid })
  for (const { batch } of batches) {
    if (found.length >= most) break
    const record = await ledger.batch(batch)
    const one = record && (await overlaid(ledger, record))
    if (one) found.push(one)
  }
  return found
}
