import type { Finding } from '@forcemeat/craft/finding'
import { walkLog } from '@forcemeat/craft/heat/core-walk'
import { createDeathIntegral } from '@forcemeat/craft/heat/death-integral'
import { deathSets } from '@forcemeat/craft/heat/data/death'
import { trackLog } from '@forcemeat/craft/heat/track'
import type { BatchRecord, Ledger } from '@forcemeat/ledger'
import type { CurveChannel } from '@forcemeat/rulebook/batch/facts'
import type { BatchJudgement } from '@forcemeat/rulebook/batch/judge-batch'
import { batchRules } from '@forcemeat/rulebook/batch/own-rules'
import { stagesOf } from '@forcemeat/rulebook/cooling/stages'
import { channelsOf, readRecorded, type RecordedCurve } from './recorded.ts'
import { shownLog, type ShownLog } from './shown.ts'

/** A temperature drawn across the plot. */
export type CurveLimit = { readonly label: string; readonly c: number; readonly stops: boolean; readonly rule?: string }

/** A stretch of time a rule limits: from the core passing one temperature to its passing another. */
export type CurveWindow = {
  readonly rule: string
  readonly label: string
  readonly fromC: number
  readonly toC: number
  readonly fromMinute: number
  /** End of the log where the core never got there. */
  readonly toMinute: number
  readonly maxMinutes: number
  readonly verdict: Finding['verdict']
}

export type CurveView = ShownLog & {
  readonly limits: readonly CurveLimit[]
  readonly windows: readonly CurveWindow[]
  /** Log reduction of Salmonella so far by the default set, at each shown minute, of the core probe that got least. */
  readonly lethality?: { readonly column: string; readonly basis: string; readonly values: readonly number[] }
  readonly chillStartMinute?: number
  readonly findings: readonly Finding[]
}

/** Log reduction reached by each of some minutes of a log, by the readings that are believed: as it is judged. */
function accumulated(log: CurveChannel['log'], minutes: readonly number[]): { values: number[]; basis: string } {
  const set = deathSets.find((s) => s.organism === 'salmonella')!
  const integral = createDeathIntegral(set)
  const course: { minute: number; reached: number }[] = []
  walkLog(log, [integral.follow, (minute) => course.push({ minute, reached: integral.minutes() / set.dMinutes })], {})
  let next = 0
  const values = minutes.map((minute) => {
    while (next < course.length && course[next]!.minute <= minute) next += 1
    return course[next - 1]?.reached ?? 0
  })
  return { values, basis: set.id }
}

/** The stages of each judged cooling option, where the warmest-chilled probe passed them. */
function windowsOf(
  findings: readonly Finding[],
  log: CurveChannel['log'],
  chillStartMinute: number | undefined,
): CurveWindow[] {
  const options = findings.flatMap((f) => {
    const stages = stagesOf(f.rule)
    return stages ? [{ ...stages, verdict: f.verdict }] : []
  })
  if (options.length === 0 || log.every((r) => r.coreC === null)) return []
  const track = trackLog(log, {
    marksC: options.flatMap((o) => [o.finalC, ...o.windows.flatMap((w) => [w.fromC, w.toC])]),
    ...(chillStartMinute === undefined ? {} : { chillStartMinute }),
  })
  return options.flatMap((o) =>
    o.windows.flatMap((w): CurveWindow[] => {
      const fromMinute = track.downBefore(w.fromC, o.finalC)
      if (fromMinute === undefined) return []
      const toMinute = track.at(w.toC).firstDownMinute ?? track.endMinute
      const { fromC, toC, maxMinutes } = w
      return [{ rule: o.rule, label: w.shown, fromC, toC, fromMinute, toMinute, maxMinutes, verdict: o.verdict }]
    }),
  )
}

function limitsOf(record: BatchRecord, windows: readonly CurveWindow[]): CurveLimit[] {
  const target = record.recipeBody.cook?.targetCoreC
  const first = windows[0]?.rule
  const marks = new Map(
    windows
      .filter((w) => w.rule === first)
      .flatMap(
        (w) =>
          [
            [w.fromC, w],
            [w.toC, w],
          ] as const,
      ),
  )
  return [
    ...(target === undefined ? [] : [{ label: 'core target', c: target, stops: true }]),
    ...[...marks].map(([c, w]) => ({ label: 'chill stage', c, stops: false, rule: w.rule })),
  ]
}

/** Everything a plot of one recorded curve shows; undefined where the record lacks its file. */
export async function curveView(
  ledger: Ledger,
  record: BatchRecord,
  curve: RecordedCurve,
  judgement: BatchJudgement,
): Promise<CurveView | undefined> {
  const read = await readRecorded(ledger, curve)
  if (!read) return undefined
  const shown = shownLog(read)
  const roles = new Map(curve.channels.map((c) => [c.column, c]))
  const channels = shown.channels
    .filter((c) => roles.get(c.column)?.role !== 'ignore')
    .map((c) => {
      const { role = c.role, offsetC = 0 } = roles.get(c.column) ?? {}
      return { ...c, role, values: offsetC === 0 ? c.values : c.values.map((v) => (v === null ? null : v + offsetC)) }
    })
  const judged = judgement.channels.filter((c) => c.seq === curve.seq)
  const logs = await channelsOf(ledger, { curves: [curve] })
  const logOf = (column: string | undefined) => logs.find((l) => l.column === column)?.log ?? []
  const least = judged
    .filter((c) => c.lethality)
    .toSorted((a, b) => a.lethality!.logReduction - b.lethality!.logReduction)[0]
  const slowest = judged
    .filter((c) => c.chill)
    .toSorted((a, b) => b.chill!.perfringens.logGrowth - a.chill!.perfringens.logGrowth)[0]
  const own = judged.flatMap((c) => [
    ...(c.lethality?.findings ?? []),
    ...(c.chill ? [...c.chill.findings, c.chill.stabilization] : []),
  ])
  const windows = windowsOf(slowest?.chill?.findings ?? [], logOf(slowest?.column), curve.chillStartMinute)
  const chillStartMinute = slowest?.chill?.chillStartMinute
  return {
    ...shown,
    channels,
    humidity: shown.humidity.filter((c) => roles.get(c.column)?.role !== 'ignore'),
    limits: limitsOf(record, windows),
    windows,
    ...(least ? { lethality: { column: least.column, ...accumulated(logOf(least.column), shown.minutes) } } : {}),
    ...(chillStartMinute === undefined ? {} : { chillStartMinute }),
    findings: judgement.findings.filter(
      (f) =>
        own.some((o) => o.rule === f.rule) ||
        (f.rule === batchRules.curveShared.id && record.sharedLogs?.some((s) => s.seq === curve.seq)),
    ),
  }
}
