import { controlChart, type ControlChart } from '@forcemeat/craft/numeric/control-chart'
import type { BatchRecord, Ledger } from '@forcemeat/ledger'
import { judgeBatch, type BatchJudgement } from '@forcemeat/rulebook/batch/judge-batch'
import type { CurveChannel } from '@forcemeat/rulebook/batch/facts'
import { channelsOf } from '../curves/recorded.ts'

/** Figures of a batch that are charted over the batches of a recipe. */
export const charted = {
  fat: { title: 'Fat of the mix, reckoned from its lots', unit: '%' },
  yield: { title: 'Packed, of what was weighed in', unit: '%' },
  'link-weight': { title: 'Link weight, mean of those weighed', unit: 'g' },
  'end-ph': { title: 'pH at the end of fermentation', unit: 'pH' },
  'come-up': { title: 'Minutes until the core reached its target', unit: 'min' },
  'chill-time': { title: 'Minutes from the start of the chill until the core was cold', unit: 'min' },
} as const
export type Charted = keyof typeof charted

export type ChartPoint = { readonly batch: string; readonly on: string; readonly value: number }
export type KitchenChart = {
  readonly name: Charted
  readonly title: string
  readonly unit: string
  readonly points: readonly ChartPoint[]
  /** Absent with fewer figures than limits are drawn from. */
  readonly chart?: ControlChart
  /** The binding limit the newest batch was held against, where there is one. */
  readonly limit?: { readonly rule: string; readonly highest?: number; readonly lowest?: number }
}

/** Fewest batches that limits are drawn from: of two or three they say nothing (common practice). */
const fewest = 5
/** Most batches one chart looks at: each is judged anew. */
export const mostBatches = 60

/** First minute at which a log is at a temperature or past it, between readings by a straight line. */
function minuteAt(log: CurveChannel['log'], c: number, way: 'up' | 'down', from = -Infinity): number | undefined {
  let before: { minute: number; c: number } | undefined
  for (const { minute, coreC } of log) {
    if (coreC === null || minute < from) continue
    const past = way === 'up' ? coreC >= c : coreC <= c
    if (past) {
      if (!before || before.c === coreC) return minute
      return before.minute + ((c - before.c) / (coreC - before.c)) * (minute - before.minute)
    }
    before = { minute, c: coreC }
  }
  return undefined
}

const meanOf = (xs: readonly number[]): number | undefined =>
  xs.length === 0 ? undefined : xs.reduce((s, x) => s + x, 0) / xs.length

/** The slowest of the probes, or nothing where one never got there. */
function slowest(times: readonly (number | undefined)[]): number | undefined {
  return times.length === 0 || times.includes(undefined) ? undefined : Math.max(...(times as number[]))
}

const grams: Readonly<Record<string, number>> = { g: 1, kg: 1000, lb: 453.59237, oz: 28.349523125 }

function figuresOf(
  b: BatchRecord,
  judgement: BatchJudgement,
  channels: readonly CurveChannel[],
  yieldPct: number | undefined,
  coldC: number,
): Readonly<Record<Charted, number | undefined>> {
  const fat = judgement.computed.measures['rawFatPct'] ?? judgement.computed.measures['fatPct']
  const links = b.measures.flatMap((m) => {
    const factor = m.unit === undefined ? undefined : grams[m.unit]
    return m.step === 'stuff' && m.what === 'weight' && m.value !== undefined && factor !== undefined
      ? [m.value * factor]
      : []
  })
  const ph = b.measures.findLast((m) => m.step === 'ferment' && m.what === 'ph' && m.value !== undefined)
  const target = b.recipeBody.cook?.targetCoreC
  const cores = (purposes: readonly string[]) =>
    b.curves
      .filter((c) => purposes.includes(c.purpose))
      .flatMap((c) =>
        c.channels
          .filter((ch) => ch.role === 'core')
          .flatMap((ch) =>
            channels.filter((x) => x.seq === c.seq && x.column === ch.column && x.trouble === undefined),
          ),
      )
  const chillOf = (x: CurveChannel): number | undefined => {
    const began = judgement.channels.find((j) => j.seq === x.seq && j.column === x.column)?.chill?.chillStartMinute
    const cold = began === undefined ? undefined : minuteAt(x.log, coldC, 'down', began)
    return cold === undefined || began === undefined ? undefined : cold - began
  }
  return {
    fat: fat && 'value' in fat ? fat.value : undefined,
    yield: yieldPct,
    'link-weight': meanOf(links),
    'end-ph': ph?.value,
    'come-up':
      target === undefined
        ? undefined
        : slowest(cores(['cook', 'cook-and-chill']).map((x) => minuteAt(x.log, target, 'up'))),
    'chill-time': slowest(cores(['chill', 'cook-and-chill']).map(chillOf)),
  }
}

/** The limit of fat that binds the newest batch, read off its findings. */
function fatLimit({ findings }: BatchJudgement): KitchenChart['limit'] {
  const f = findings.find(
    (x) => x.weight !== 'advice' && /\bfat\b/i.test(x.title) && x.limit !== undefined && x.unit.startsWith('%'),
  )
  if (!f || f.measured === undefined || f.margin === undefined) return undefined
  const highest = Math.abs(f.limit! - f.measured - f.margin) < 1e-6
  return { rule: f.rule, ...(highest ? { highest: f.limit! } : { lowest: f.limit! }) }
}

/** Control charts of one recipe over its batches, oldest first; a batch without a figure is left out of that chart. */
export async function kitchenCharts(ledger: Ledger, recipe: string, coldC: number): Promise<KitchenChart[]> {
  const listed = (await ledger.batches({ recipe, limit: mostBatches })).filter((b) => b.state !== 'planned')
  const points = new Map<Charted, ChartPoint[]>()
  let newest: BatchJudgement | undefined
  for (const { batch, on } of listed.toReversed()) {
    const b = await ledger.batch(batch)
    if (!b) continue
    const channels = await channelsOf(ledger, b)
    const judgement = judgeBatch(b, channels)
    newest = judgement
    const balance = await ledger.massBalance(batch)
    for (const [name, value] of Object.entries(figuresOf(b, judgement, channels, balance?.yieldPct, coldC)) as [
      Charted,
      number | undefined,
    ][])
      if (value !== undefined && Number.isFinite(value))
        points.set(name, [...(points.get(name) ?? []), { batch, on, value: Number(value.toFixed(6)) }])
  }
  return (Object.keys(charted) as Charted[]).map((name) => {
    const mine = points.get(name) ?? []
    const limit = name === 'fat' && newest ? fatLimit(newest) : undefined
    const bounds = {
      ...(limit?.highest === undefined ? {} : { highest: limit.highest }),
      ...(limit?.lowest === undefined ? {} : { lowest: limit.lowest }),
    }
    return {
      name,
      ...charted[name],
      points: mine,
      ...(mine.length < fewest ? {} : { chart: controlChart({ values: mine.map((p) => p.value), ...bounds }) }),
      ...(limit ? { limit } : {}),
    }
  })
}
