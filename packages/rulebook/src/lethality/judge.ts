import type { LethalityQuestion, ThermometerDoubt } from '@forcemeat/craft/heat/lethality'
import { guidelineFrom, comeUp, humiditySource } from '../../data/lethality/process.ts'
import type { Finding } from '../rule.ts'
import type { Source } from '@forcemeat/craft/source'
import { checkOverdueDoubt, errorUnknownNote } from './error.ts'
import { comeUpMarks, judgeComeUp } from './come-up.ts'
import { highestMetRow, holdAgainst, type Outcome } from './hold.ts'
import { judgeHumidity } from './humidity.ts'
import { everyTable, pattyTable, tableFor, type HoldTable } from './tables.ts'

/** Temperatures, °C, that the lethality rules ask of a core log. */
export const lethalityMarks: readonly number[] = [
  ...new Set([...everyTable, pattyTable].flatMap((t) => t.rows.map((r) => r.tempC)).concat(comeUpMarks)),
]

const humidityRule = 'us.fsis.lethality.humidity'

/** A pass by a thermometer that proves nothing is none. */
const proving = (outcome: Outcome, doubt: ThermometerDoubt): Outcome =>
  outcome.verdict === 'pass'
    ? {
        ...outcome,
        verdict: 'cannot-tell',
        because: `${outcome.because}; but ${doubt.because}`,
        settle: doubt.settle,
      }
    : outcome

type Head = {
  readonly rule: string
  readonly title: string
  readonly weight: 'limit' | 'advice'
  readonly unit: string
  readonly source: Source
}

const finding = ({ source, ...head }: Head, outcome: Outcome): Finding => {
  const { document, section, edition, url, mark } = source
  return {
    ...head,
    jurisdiction: 'US',
    ...outcome,
    source: { document, section, edition, mark, ...(url === undefined ? {} : { url }) },
    inForce: head.rule.startsWith('us.fsis') ? { from: guidelineFrom } : {},
  }
}

const head = (table: HoldTable, weight: Head['weight']): Head => ({
  rule: table.id,
  title: table.title,
  weight,
  unit: 's',
  source: table.source,
})

/** A table of a product nobody named: what it says holds only if the product is that one, and a poultry table then fails nothing. */
function supposed(table: HoldTable, outcome: Outcome): Outcome {
  const bird = ['chicken', 'turkey'].find((s) => table.id.includes(s))
  const because = `if it is ${bird ?? 'meat without poultry'}: ${outcome.because}`
  return bird !== undefined && outcome.verdict === 'fail'
    ? { ...outcome, verdict: 'cannot-tell', because, settle: 'the species of the product' }
    : { ...outcome, because }
}

/** Advice that is missed stops a release; that nobody can tell does not. */
const binding = (f: Finding): Finding => (f.verdict === 'fail' ? { ...f, weight: 'limit' } : f)

/**
 * A come-up that the log should have shown and does not (a hole, the thermometer's error), or that may already have been too long in what
 * it shows, stops a release as a missed one does. Only the time before a log that began warm is left as advice.
 */
const comeUpBinds = (f: Finding, startC: number): Finding => {
  const tooLong = f.margin !== undefined && f.margin < 0
  return f.verdict === 'cannot-tell' && (startC <= comeUpMarks[0]! || tooLong) ? { ...f, weight: 'limit' } : binding(f)
}

function tableFindings({ track, toleranceC, product }: LethalityQuestion): Finding[] {
  const unknown = (because: string, settle: string): Finding =>
    finding(
      {
        rule: 'us.fsis.lethality.which-table',
        title: 'Which lethality table speaks for the product',
        weight: 'limit',
        unit: '',
        source: everyTable[0]!.source,
      },
      { verdict: 'cannot-tell', because, settle },
    )
  if (product?.species === undefined)
    return [
      ...everyTable.map((t) => finding(head(t, 'advice'), supposed(t, holdAgainst(t, track, toleranceC)))),
      unknown(
        'the species of the product is not given: each table is judged, none of them decides',
        'species, and for poultry the fat of the mix',
      ),
    ]
  const table = tableFor(product.species, product.target, product.fatPct)
  if (table === undefined)
    return [
      unknown(
        `no table gives a ${product.target} target for ${product.species}`,
        'a target of 7-log, or support for another from a process authority',
      ),
    ]
  return [finding(head(table, 'limit'), holdAgainst(table, track, toleranceC))]
}

/** Findings of the lethality tables, come-up and humidity for one core log. */
export function judgeLethality(question: LethalityQuestion): Finding[] {
  const { track, toleranceC, checkOverdue, product, humidity } = question
  const table = product?.species === undefined ? undefined : tableFor(product.species, product.target, product.fatPct)
  const metRowF = table && highestMetRow(table, track, toleranceC)
  const fermented = product?.fermented === true
  const comeUpFinding = finding(
    {
      rule: 'us.fsis.lethality.come-up',
      title: 'Come-up time of the centre, 50 to 130 °F',
      weight: 'advice',
      unit: 'min',
      source: comeUp.source,
    },
    fermented
      ? {
          verdict: 'cannot-tell',
          because: 'fermented before the cook: degree-hours take the place of the come-up time',
          settle: 'the degree-hours of the fermentation',
        }
      : judgeComeUp(track, toleranceC),
  )
  const process = [
    fermented ? comeUpFinding : comeUpBinds(comeUpFinding, track.startC),
    binding(
      finding(
        {
          rule: humidityRule,
          title: 'Humidity during the cook',
          weight: 'advice',
          unit: 'min',
          source: humiditySource,
        },
        judgeHumidity(humidity, metRowF),
      ),
    ),
  ]
  const noted = (f: Finding): Finding =>
    question.errorUnknown && f.measured !== undefined && f.rule !== humidityRule
      ? { ...f, because: `${f.because}${errorUnknownNote}` }
      : f
  const doubt = question.doubted ?? (checkOverdue ? checkOverdueDoubt : undefined)
  // A product of which no humidity is asked rests on no thermometer there.
  const restsOn = (f: Finding): boolean => f.rule !== humidityRule || f.measured !== undefined
  return [...tableFindings(question), ...process]
    .map(noted)
    .map((f) => (doubt && restsOn(f) ? { ...f, ...proving(f, doubt) } : f))
}
