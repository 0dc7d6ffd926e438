import type { Finding, Verdict } from '@forcemeat/craft/finding'
import type { LogJudgement } from '@forcemeat/craft/log/judge-log'
import { formatNumber, formatQuantity } from '@forcemeat/craft/quantity/format'
import type { SlowJudgement } from './slow-judgement.ts'

export type System = 'metric' | 'us'

export const words: Readonly<Record<Verdict, string>> = {
  pass: '✓ pass',
  fail: '× FAIL',
  'cannot-tell': '? cannot tell',
}
const order: Readonly<Record<Verdict, number>> = { fail: 0, 'cannot-tell': 1, pass: 2 }

const options: Readonly<Record<string, string>> = {
  'date-order': '--date-order',
  unit: '--unit',
  'time-unit': '--time-unit',
  decimal: '--decimal',
  roles: '--core and --house',
  'clock-change': '--clock-change',
  layout: '--delimiter, --decimal',
  'ph-meter': '--ph-meter-calibrated',
  species: '--species',
}

/** What decides first, then advice that is not met, then what is met. */
const rank = (f: Finding): number => (f.verdict === 'pass' ? 4 : order[f.verdict]) + (f.weight === 'advice' ? 2 : 0)

export const findingLines = (f: Finding): string[] => [
  `${words[f.verdict].padEnd(14)}${f.title}${f.weight === 'advice' ? ' (advice)' : ''}`,
  `${' '.repeat(14)}${f.because}`,
  ...(f.settle === undefined ? [] : [`${' '.repeat(14)}would settle it: ${f.settle}`]),
  `${' '.repeat(14)}${f.jurisdiction}; ${f.source.document}, ${f.source.section}`,
]

/** A temperature of the log, °C, as the maker reads it. */
export const degrees = (tempC: number, system: System): string =>
  formatQuantity(tempC, 'temperature', { system, places: 1 })
/** Beyond twenty tenfolds a figure says no more. */
const logs = (x: number): string => (x > 20 ? 'more than 20' : formatNumber(x, { places: 1 }))
export const clock = (m: number): string => `${Math.floor(m / 60)}:${String(Math.round(m % 60)).padStart(2, '0')}`

type Read = Pick<SlowJudgement, 'format' | 'rows' | 'minutes' | 'notes' | 'anomalies'>

export function howRead(j: Read): string[] {
  const f = j.format
  return [
    ...(f
      ? [
          `read as   columns by ${JSON.stringify(f.delimiter)}, decimal ${JSON.stringify(f.decimal)}, times ${f.time.form}, ${j.rows} rows over ${clock(j.minutes)} h`,
          `channels  ${f.channels.map((k) => `${k.name} (${k.role}, °${k.unit})`).join('; ')}`,
        ]
      : []),
    ...j.notes.map((n) => `note      ${n}`),
    ...Object.entries(j.anomalies.counts).map(([kind, n]) => `odd rows  ${n} ${kind}`),
  ]
}

/** What is open, with the option that answers it. */
export const askedLines = (questions: SlowJudgement['questions']): string[] =>
  questions.map(
    (q) => `asked     ${q.text} Answer with ${options[q.about] ?? `an option (${q.about})`}: ${q.choices.join(', ')}`,
  )

export const verdictLine = ({ verdict, because }: Pick<SlowJudgement, 'verdict' | 'because'>): string =>
  `verdict   ${words[verdict]}${because ? `: ${because}` : ''}`

/** What decides first: what fails, what cannot be told, what is met. */
export const inRank = (findings: readonly Finding[]): Finding[] => findings.toSorted((a, b) => rank(a) - rank(b))

/** A judged log as a person reads it: how it was read, what is open, each finding with its reason and source, the verdict last. */
export function verdictTable(j: LogJudgement, system: System = 'metric'): string {
  const lines = howRead(j)
  if (j.questions.length > 0) lines.push('', ...askedLines(j.questions))
  if (j.lethality)
    lines.push(
      `lethality ${logs(j.lethality.logReduction)} log by the coldest probe (${j.lethality.probe}), peak ${degrees(j.lethality.peakC, system)}; an estimate, and no verdict`,
    )
  if (j.chill)
    lines.push(
      `growth    ${formatNumber(j.chill.logGrowth, { places: 2 })} log of C. perfringens at most by the probe that did worst (${j.chill.probe}); an estimate, and no verdict`,
    )
  if (j.findings.length > 0) lines.push('', ...inRank(j.findings).flatMap(findingLines))
  const idle = j.chill?.notApplicable ?? []
  if (idle.length > 0) lines.push('', ...idle.map((o) => `not for it  ${o.title}: ${o.because}`))
  lines.push('', verdictLine(j))
  return lines.join('\n')
}
