import type { Finding, Verdict } from '@forcemeat/craft/finding'
import type { LogJudgement } from '@forcemeat/craft/log/judge-log'
import { formatNumber } from '@forcemeat/craft/quantity/format'

const words: Readonly<Record<Verdict, string>> = { pass: '✓ pass', fail: '× FAIL', 'cannot-tell': '? cannot tell' }
const order: Readonly<Record<Verdict, number>> = { fail: 0, 'cannot-tell': 1, pass: 2 }

const options: Readonly<Record<string, string>> = {
  'date-order': '--date-order',
  unit: '--unit',
  'time-unit': '--time-unit',
  decimal: '--decimal',
  roles: '--core and --house',
  'clock-change': '--clock-change',
  layout: '--delimiter, --decimal',
}

/** What decides first, then advice that is not met, then what is met. */
const rank = (f: Finding): number => (f.verdict === 'pass' ? 4 : order[f.verdict]) + (f.weight === 'advice' ? 2 : 0)

const findingLines = (f: Finding): string[] => [
  `${words[f.verdict].padEnd(14)}${f.title}${f.weight === 'advice' ? ' (advice)' : ''}`,
  `${' '.repeat(14)}${f.because}`,
  ...(f.settle === undefined ? [] : [`${' '.repeat(14)}would settle it: ${f.settle}`]),
  `${' '.repeat(14)}${f.jurisdiction}; ${f.source.document}, ${f.source.section}`,
]

const c = (x: number): string => `${formatNumber(x, { places: 1 })} °C`
/** Beyond twenty tenfolds a figure says no more. */
const logs = (x: number): string => (x > 20 ? 'more than 20' : formatNumber(x, { places: 1 }))
const clock = (m: number): string => `${Math.floor(m / 60)}:${String(Math.round(m % 60)).padStart(2, '0')}`

function howRead(j: LogJudgement): string[] {
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

/** A judged log as a person reads it: how it was read, what is open, each finding with its reason and source, the verdict last. */
export function verdictTable(j: LogJudgement): string {
  const lines = howRead(j)
  if (j.questions.length > 0)
    lines.push(
      '',
      ...j.questions.map(
        (q) =>
          `asked     ${q.text} Answer with ${options[q.about] ?? `an option (${q.about})`}: ${q.choices.join(', ')}`,
      ),
    )
  if (j.lethality)
    lines.push(
      `lethality ${logs(j.lethality.logReduction)} log by the coldest probe (${j.lethality.probe}), peak ${c(j.lethality.peakC)}; an estimate, and no verdict`,
    )
  if (j.chill)
    lines.push(
      `growth    ${formatNumber(j.chill.logGrowth, { places: 2 })} log of C. perfringens at most by the probe that did worst (${j.chill.probe}); an estimate, and no verdict`,
    )
  if (j.findings.length > 0) lines.push('', ...j.findings.toSorted((a, b) => rank(a) - rank(b)).flatMap(findingLines))
  const idle = j.chill?.notApplicable ?? []
  if (idle.length > 0) lines.push('', ...idle.map((o) => `not for it  ${o.title}: ${o.because}`))
  lines.push('', `verdict   ${words[j.verdict]}${j.because ? `: ${j.because}` : ''}`)
  return lines.join('\n')
}
