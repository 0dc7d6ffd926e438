import { overall, type Finding, type Verdict } from '../finding.ts'
import { summarise, type ChillSummary, type CoolingProduct, type NotApplicable } from '../heat/chill.ts'
import type { Organism } from '../heat/data/death.ts'
import type { Humidity, LethalityEstimate, LethalityProduct } from '../heat/lethality.ts'
import { createAnomalyList, type AnomalyReport } from './anomalies.ts'
import { columnsOf, type Answers, type LogFormat, type Question } from './format.ts'
import { createProbeJudge, type ProbeJudgement } from './probe-judge.ts'
import { createLogReader } from './reader.ts'
import { HEAD_BYTES, sniff } from './sniff.ts'
import { createThinner, type Point } from './thin.ts'

export type JudgeOptions = {
  readonly answers?: Answers
  readonly organism?: Organism
  readonly product?: LethalityProduct
  readonly cooling?: CoolingProduct
  readonly humidity?: Humidity
  readonly toleranceC?: number
  readonly checkOverdue?: boolean
  readonly maxGapMinutes?: number
  readonly acceptFalls?: boolean
  readonly chillStartMinute?: number
  /** The log is of a cook alone: nothing is asked of a chill of which nothing is said in `cooling`. */
  readonly cookOnly?: boolean
  /** Points kept of each channel for a plot. */
  readonly points?: number
  /** Told now and then how many rows were read. */
  readonly onProgress?: (rows: number) => void
}

export type LogJudgement = {
  readonly format?: LogFormat
  readonly notes: readonly string[]
  /** Where any is open, nothing is judged. */
  readonly questions: readonly Question[]
  readonly verdict: Verdict
  readonly because?: string
  readonly rows: number
  readonly firstStamp?: number
  readonly minutes: number
  readonly anomalies: AnomalyReport
  readonly probes: readonly ProbeJudgement[]
  /** Of the coldest probe. */
  readonly lethality?: {
    readonly probe: string
    readonly logReduction: number
    readonly estimates: readonly LethalityEstimate[]
    readonly peakC: number
  }
  /** Of the probe that grew most. */
  readonly chill?: {
    readonly probe: string
    readonly summary: ChillSummary
    readonly logGrowth: number
    /** Published options that do not speak for the product. */
    readonly notApplicable: readonly NotApplicable[]
  }
  /** Rule by rule, the worst of the probes. */
  readonly findings: readonly Finding[]
  readonly series: readonly { readonly name: string; readonly role: string; readonly points: readonly Point[] }[]
}

const rank = { fail: 0, 'cannot-tell': 1, pass: 2 } as const

/** Rule by rule the worst finding of all probes, naming the probe where there are several. */
export function worstOf(
  probes: readonly { readonly name: string; readonly findings: readonly Finding[] }[],
): Finding[] {
  const byRule = new Map<string, Finding>()
  for (const { name, findings } of probes)
    for (const f of findings) {
      const named = probes.length > 1 ? { ...f, because: `${name}: ${f.because}` } : f
      const held = byRule.get(f.rule)
      const worse =
        held === undefined ||
        rank[f.verdict] < rank[held.verdict] ||
        (f.verdict === held.verdict && (f.margin ?? Infinity) < (held.margin ?? Infinity))
      if (worse) byRule.set(f.rule, named)
    }
  return [...byRule.values()]
}

type Chunks = AsyncIterable<Uint8Array> | Iterable<Uint8Array>

/**
 * Judge a logger file as it streams by: how it is read, lethality by its coldest core probe, chilling by its warmest, every finding
 * as the worst of the probes. Holds no rows. What the file does not say comes back as questions and nothing is judged.
 */
export async function judgeLog(chunks: Chunks, options: JudgeOptions = {}): Promise<LogJudgement> {
  const { answers = {}, points = 2000 } = options
  const iterator = (Symbol.asyncIterator in chunks ? chunks[Symbol.asyncIterator]() : chunks[Symbol.iterator]()) as
    | AsyncIterator<Uint8Array>
    | Iterator<Uint8Array>
  let head = new Uint8Array(0)
  let done = false
  while (head.length < HEAD_BYTES && !done) {
    const next = await iterator.next()
    if (next.done) done = true
    else {
      const joined = new Uint8Array(head.length + next.value.length)
      joined.set(head)
      joined.set(next.value, head.length)
      head = joined
    }
  }
  const sniffed = sniff(head.subarray(0, HEAD_BYTES), answers)
  const { format, notes } = sniffed
  const open = (questions: readonly Question[], because: string): LogJudgement => ({
    ...(format === undefined ? {} : { format }),
    notes,
    questions,
    verdict: 'cannot-tell',
    because,
    rows: 0,
    minutes: 0,
    anomalies: { listed: [], counts: {} },
    probes: [],
    findings: [],
    series: [],
  })
  if (format === undefined || sniffed.questions.length > 0)
    return open(sniffed.questions, 'the file does not say everything needed to read it')

  const anomalies = createAnomalyList(columnsOf(format), 1000)
  const cores = format.channels.flatMap((c, k) =>
    c.role === 'core' ? [{ k, judge: createProbeJudge(c.name, options) }] : [],
  )
  const house = format.channels.findIndex((c) => c.role === 'house')
  const thinners = format.channels.map(() => createThinner(points))
  let minutes = 0
  const reader = createLogReader(
    format,
    {
      row: (minute, values) => {
        minutes = minute
        for (const { k, judge } of cores) judge.push(minute, values[k]!, house < 0 ? NaN : values[house]!)
        for (let k = 0; k < thinners.length; k++) thinners[k]!.push(minute, values[k]!)
      },
      anomaly: anomalies.add,
    },
    answers,
  )
  reader.feed(head)
  while (!done) {
    const next = await iterator.next()
    if (next.done) done = true
    else {
      reader.feed(next.value)
      options.onProgress?.(reader.rows())
    }
  }
  reader.end()
  if (reader.questions().length > 0)
    return {
      ...open(reader.questions(), 'the clock jumps by an hour'),
      rows: reader.rows(),
      anomalies: anomalies.report(),
    }

  const probes = cores.map(({ judge }) => judge.finish(minutes)).filter((p) => p !== undefined)
  if (probes.length === 0)
    return { ...open([], 'no core probe gave a reading'), rows: reader.rows(), anomalies: anomalies.report() }
  const findings = worstOf(probes)
  const coldest = probes.toSorted((a, b) => a.logReduction - b.logReduction)[0]!
  const warmest = probes
    .filter((p) => p.chill !== undefined)
    .toSorted((a, b) => b.chill!.logGrowth - a.chill!.logGrowth)[0]
  const verdict = overall(findings.filter((f) => f.weight === 'limit'))
  return {
    format,
    notes,
    questions: [],
    verdict,
    rows: reader.rows(),
    firstStamp: reader.firstStamp(),
    minutes,
    anomalies: anomalies.report(),
    probes,
    findings,
    lethality: {
      probe: coldest.name,
      logReduction: coldest.logReduction,
      estimates: coldest.estimates,
      peakC: coldest.peakC,
    },
    ...(warmest?.chill === undefined
      ? {}
      : {
          chill: {
            probe: warmest.name,
            summary: summarise(
              findings.find((f) => f.rule === warmest.chill!.stabilizationRule)!,
              findings.filter((f) => warmest.chill!.options.includes(f.rule)),
            ),
            logGrowth: warmest.chill.logGrowth,
            notApplicable: warmest.chill.notApplicable,
          },
        }),
    series: format.channels.map((c, k) => ({ name: c.name, role: c.role, points: thinners[k]!.points() })),
  }
}
