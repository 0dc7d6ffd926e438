import type { WorkingStep } from '@forcemeat/craft/finding'
import { formatNumber, formatQuantity } from '@forcemeat/craft/quantity/format'
import type { CountedSystem } from '@forcemeat/server/slow/degree-count'
import type { FermentJudgement } from './judge-ferment.ts'
import type { FreezingJudgement } from './judge-freezing.ts'
import { askedLines, clock, degrees, findingLines, howRead, inRank, verdictLine, type System } from './table.ts'

const indent = ' '.repeat(10)
const hours = (h: number): string => `${clock(h * 60)} h`

const figure = (w: WorkingStep, system: System): string =>
  w.unit === '°C' ? degrees(w.value, system) : `${formatNumber(w.value, { digits: 6 })} ${w.unit}`

const workingLines = (working: readonly WorkingStep[], system: System): string[] =>
  working.map((w) => `${indent}  ${w.step}: ${w.expression} = ${figure(w, system)}`)

function systemLines(s: CountedSystem, system: System): string[] {
  const used = `${formatNumber(s.degreeHours, { places: 1 })} of ${formatNumber(s.limit)} ${s.unit}`
  const memory = s.limitMark === 'from-memory' ? ' (limit from memory)' : ''
  const until =
    s.hoursToTarget === undefined
      ? s.hoursLeft === undefined
        ? 'no hours are used up at the last temperature'
        : `${formatNumber(s.hoursLeft, { places: 1 })} h left at the last temperature${
            s.runsOutAt === undefined
              ? ''
              : `, until ${s.runsOutAt.slice(0, 16).replace('T', ' ')}${s.runsOutAt.endsWith('Z') ? ' UTC' : ''}`
          }`
      : `the count ended after ${hours(s.hoursToTarget)}`
  const hole = s.hole
    ? [`${indent}nothing is known from ${hours(s.hole.from)} to ${hours(s.hole.to)}: not counted`]
    : []
  return [
    `${s.jurisdiction.padEnd(10)}${used}${memory}; highest ${degrees(s.highestC, system)}; ${until}`,
    ...hole,
    ...workingLines(s.working, system),
  ]
}

const findingsOf = (j: FermentJudgement | FreezingJudgement): string[] =>
  j.findings.length > 0 ? ['', ...inRank(j.findings).flatMap(findingLines)] : []
const questionsOf = (j: FermentJudgement | FreezingJudgement): string[] =>
  j.questions.length > 0 ? ['', ...askedLines(j.questions)] : []

/** A judged fermentation as a person reads it, the verdict last. */
export function fermentTable(j: FermentJudgement, system: System): string {
  const ph = j.readings.map((r) => `${formatNumber(r.ph)} at ${r.hour < 0 ? '\u2212' : ''}${hours(Math.abs(r.hour))}`)
  return [
    ...howRead(j),
    ...(j.columns.length > 0 ? [`air       ${j.columns.join('; ')}`] : []),
    ...(ph.length > 0
      ? [
          `pH        ${ph.join('; ')}; counted to pH ${formatNumber(j.targetPh)}${j.phTolerance === undefined ? '' : `, meter ± ${formatNumber(j.phTolerance)}`}`,
        ]
      : []),
    ...(j.lastTempC === undefined ? [] : [`last      ${degrees(j.lastTempC, system)} in the chamber`]),
    ...questionsOf(j),
    ...(j.systems.length > 0 ? ['', ...j.systems.flatMap((s) => systemLines(s, system))] : []),
    ...findingsOf(j),
    '',
    verdictLine(j),
  ].join('\n')
}

/** A judged freezing as a person reads it, the verdict last. */
export function freezingTable(j: FreezingJudgement, system: System): string {
  const length = formatQuantity(j.thicknessMm, 'length', { system })
  // A row of a schedule that the centre never reached says nothing of how the others were met.
  const working = (j.working ?? []).filter((w) => w.value > 0)
  return [
    ...howRead(j),
    `meat      ${[j.species?.replace('-', ' '), `${length} thick`].filter(Boolean).join(', ')}`,
    ...(j.probe === undefined ? [] : [`centre    ${j.probe}`]),
    ...questionsOf(j),
    ...(working.length > 0 ? ['', 'working', ...workingLines(working, system)] : []),
    ...findingsOf(j),
    '',
    verdictLine(j),
  ].join('\n')
}
