import { controlChart, type ControlChart } from '@forcemeat/craft/numeric/control-chart'
import type { BatchRecord, Ledger } from '@forcemeat/ledger'
import { judgeBatch, type BatchJudgement } from '@forcemeat/rulebook/batch/judge-batch'
import type { CurveChannel } from '@forcemeat/rulebook/batch/facts'
import {
  chillSharesOf,
  comeUpOf,
  fatLimit,
  figureOf,
  optionOf,
  ownCharted,
  phLimit,
  type ChartLimit,
} from './limits.ts'
import { charted, settles, type Charted } from './charted.ts'
import { channelsOf } from '../curves/recorded.ts'

export type ChartPoint = { readonly batch: string; readonly on: string; readonly value: number }
export type KitchenChart = {
  readonly name: Charted
  readonly title: string
  readonly unit: string
  readonly points: readonly ChartPoint[]
  /** Absent with fewer figures than limits are drawn from. */
  readonly chart?: ControlChart
  /** The limit the newest batch was held against, or the one the kitchen sets itself now, where there is one. */
  readonly limit?: ChartLimit
  /** Without a limit: what would let capability be told. */
  readonly settle?: string
  /** What the recipe aims at: no limit, nothing is judged by it. */
  readonly aim?: number
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
): Readonly<Record<Exclude<Charted, 'fat' | 'chill-share'>, number | undefined>> {
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
    yield: yieldPct,
    'link-weight': meanOf(links),
    'end-ph': ph?.value,
    'come-up':
      target === undefined
        ? undefined
        : slowest(cores(['cook', 'cook-and-chill']).map((x) => minuteAt(x.log, target, 'up'))),
    'come-up-window': comeUpOf(judgement)?.value,
    'chill-time': slowest(cores(['chill', 'cook-and-chill']).map(chillOf)),
  }
}

/** A limit nobody has read in its source shows, and nothing is said to keep within it. */
function onWhoseWord(chart: ControlChart, limit: ChartLimit | undefined): ControlChart {
  const { capability: said } = chart
  if (!limit?.unread || said?.verdict !== 'capable') return chart
  const because = `${said.because}; but the limit itself is not read in its source`
  return { ...chart, capability: { ...said, verdict: 'cannot-tell', because } }
}

/** Control charts of one recipe over its batches, oldest first; a batch without a figure is left out of that chart. */
export async function kitchenCharts(ledger: Ledger, recipe: string, coldC: number): Promise<KitchenChart[]> {
  const listed = (await ledger.batches({ recipe, limit: mostBatches })).filter((b) => b.state !== 'planned')
  const points = new Map<Charted, ChartPoint[]>()
  const judgements: { readonly at: Omit<ChartPoint, 'value'>; readonly judgement: BatchJudgement }[] = []
  let body: BatchRecord['recipeBody'] | undefined
  const add = (name: Charted, at: Omit<ChartPoint, 'value'>, value: number | undefined): void => {
    if (value !== undefined && Number.isFinite(value))
      points.set(name, [...(points.get(name) ?? []), { ...at, value: Number(value.toFixed(6)) }])
  }
  for (const { batch, on } of listed.toReversed()) {
    const b = await ledger.batch(batch)
    if (!b) continue
    const channels = await channelsOf(ledger, b)
    const judgement = judgeBatch(b, channels)
    judgements.push({ at: { batch, on }, judgement })
    body = b.recipeBody
    const balance = await ledger.massBalance(batch)
    for (const [name, value] of Object.entries(figuresOf(b, judgement, channels, balance?.yieldPct, coldC)))
      add(name as Charted, { batch, on }, value)
  }
  const option = optionOf(judgements.map((j) => j.judgement))
  if (option !== undefined)
    for (const { at, judgement } of judgements) add('chill-share', at, chillSharesOf(judgement).get(option))
  const newest = judgements.at(-1)?.judgement
  const comeUp = newest && comeUpOf(newest)
  const fat = newest && fatLimit(newest, body?.limits)
  if (fat) for (const { at, judgement } of judgements) add('fat', at, figureOf(judgement, fat.basis))
  // What is asked of a chart is how the process as it runs stands to what is wanted of it now.
  const own = (await ledger.kitchen())?.ownLimits?.byRecipe?.find((o) => o.recipe === recipe)
  const limits: Partial<Record<Charted, ChartLimit | undefined>> = {
    ...ownCharted(own ?? {}),
    fat: fat?.limit,
    'end-ph': newest && phLimit(newest, body?.ferment?.targetPh),
    'come-up-window': comeUp && {
      rule: comeUp.rule,
      highest: comeUp.limit,
      ...(comeUp.unread ? { unread: comeUp.unread } : {}),
    },
    'chill-share': option === undefined ? undefined : { rule: option, highest: 100 },
  }
  return (Object.keys(charted) as Charted[]).map((name) => {
    const mine = points.get(name) ?? []
    const limit = limits[name]
    const bounds = {
      ...(limit?.highest === undefined ? {} : { highest: limit.highest }),
      ...(limit?.lowest === undefined ? {} : { lowest: limit.lowest }),
    }
    return {
      name,
      ...charted[name],
      ...(name === 'fat' && fat?.basis === 'fatPct'
        ? { title: 'Fat of the finished product, reckoned from its lots' }
        : {}),
      points: mine,
      ...(mine.length < fewest
        ? {}
        : { chart: onWhoseWord(controlChart({ values: mine.map((p) => p.value), ...bounds }), limit) }),
      ...(limit ? { limit } : { settle: settles[name] }),
      ...(name === 'link-weight' && body?.casing?.linkG !== undefined ? { aim: body.casing.linkG } : {}),
    }
  })
}
