import type { CoolingQuestion } from '@forcemeat/craft/heat/chill'
import { canDecide, type Source } from '@forcemeat/craft/source'
import { coolingOptions, REWARMED_C, stabilizationSource, type CoolingOption } from '../../data/cooling/options.ts'
import type { Finding } from '../rule.ts'
import { atTheMost, checkOverdueDoubt, errorUnknownNote } from '../lethality/error.ts'
import { standing } from './conditions.ts'
import { judgeWindow, type WindowOutcome } from './windows.ts'

/** Temperatures, °C, that the cooling rules ask of a core log. */
export const coolingMarks: readonly number[] = [
  ...new Set(
    coolingOptions.flatMap((o) => [
      o.finalC,
      ...o.windows.flatMap((w) => [
        ...[w.fromC, w.stepOfOthersC ?? w.fromC].flatMap((c) => [c, c + REWARMED_C]),
        w.toC,
        w.orToC ?? w.toC,
      ]),
    ]),
  ),
]

const face = ({ document, section, edition, url, mark }: Source) => ({
  document,
  section,
  edition,
  mark,
  ...(url === undefined ? {} : { url }),
})

const sentence = ({ window, minutes, reason }: WindowOutcome): string =>
  `${window.shown}: ${[minutes === undefined ? '' : `${minutes} min of ${window.maxMinutes}`, reason ?? ''].filter(Boolean).join('; ')}`

const order = { fail: 0, 'cannot-tell': 1, pass: 2 } as const

/** The window that decides: the worst verdict, and among equals the least margin. */
const deciding = (all: readonly WindowOutcome[]): WindowOutcome =>
  all.toSorted(
    (a, b) =>
      order[a.verdict] - order[b.verdict] ||
      a.window.maxMinutes - (a.minutes ?? 0) - (b.window.maxMinutes - (b.minutes ?? 0)),
  )[0]!

/** Reasons why windows that are met still leave the option open. */
function doubts(option: CoolingOption, question: CoolingQuestion): readonly [string, string][] {
  const { track, toleranceC, checkOverdue, product } = question
  const { missing, fromMemory } = standing(option.when, product)
  const found: [string, string][] = []
  if (missing.length > 0) found.push([`not known: ${missing.join(', ')}`, `give ${missing.join(', ')}`])
  if (!canDecide(option.source.mark) || fromMemory.length > 0)
    found.push([
      `${fromMemory.length > 0 ? `the condition (${fromMemory.join('; ')})` : 'the option'} is from memory, not read in its source`,
      'read the option in the document named and enter it with its edition',
    ])
  if (track.downBefore(option.finalC - toleranceC, option.finalC - toleranceC) === undefined)
    found.push([
      `the log ends at ${Number(track.endC.toFixed(2))} °C, before the end of the cooling`,
      'the log until the core is at its final temperature',
    ])
  const doubt = question.doubted ?? (checkOverdue ? checkOverdueDoubt : undefined)
  if (doubt) found.push([doubt.because, doubt.settle])
  return found
}

/** A judged option; `lost` where it is not met even by figures that are from memory, so that it cannot carry the standard. */
type Judged = { readonly option: CoolingOption; readonly finding: Finding; readonly lost: boolean }

function judgeOption(option: CoolingOption, question: CoolingQuestion): Judged | undefined {
  const stands = standing(option.when, question.product)
  if (stands.applies === 'no') return undefined
  const outcomes = option.windows.map((w) => judgeWindow(w, question.track, option.finalC, question.toleranceC))
  const worst = deciding(outcomes)
  const open = worst.verdict === 'pass' || !canDecide(option.source.mark) ? doubts(option, question) : []
  const verdict = open.length > 0 ? 'cannot-tell' : worst.verdict
  const because = [
    outcomes.map(sentence).join('. ') +
      (outcomes.some((o) => o.minutes !== undefined) ? atTheMost(question.toleranceC) : ''),
    ...open.map(([reason]) => reason),
    ...(option.current ? [] : ['superseded form, shown for comparison']),
  ]
  const settle = [...(worst.settle === undefined ? [] : [worst.settle]), ...open.map(([, s]) => s)]
  const finding: Finding = {
    rule: option.id,
    title: option.title,
    jurisdiction: option.jurisdiction,
    verdict,
    // Options are alternatives: none of them stops a release by itself, the standard they serve does.
    weight: 'advice',
    ...(worst.minutes === undefined
      ? {}
      : { measured: worst.minutes, margin: Number((worst.window.maxMinutes - worst.minutes).toFixed(2)) }),
    limit: worst.window.maxMinutes,
    unit: 'min',
    because: because.join('. '),
    ...(verdict === 'cannot-tell' && settle.length > 0 ? { settle: settle.join('; ') } : {}),
    ...(verdict === 'pass' && !option.current
      ? { settle: 'a current option, or support of its own for this form' }
      : {}),
    source: face(option.source),
    inForce: {
      ...(option.from === undefined ? {} : { from: option.from }),
      ...(option.until === undefined ? {} : { until: option.until }),
    },
  }
  return { option, finding, lost: worst.verdict === 'fail' || stands.missed }
}

function stabilization(options: readonly Judged[]): Finding {
  const counted = options.filter(({ option }) => option.jurisdiction === 'US' && option.current)
  const met = counted.flatMap(({ finding }) => (finding.verdict === 'pass' ? [finding] : []))
  const open = counted.flatMap(({ finding, lost }) => (finding.verdict === 'cannot-tell' && !lost ? [finding] : []))
  const verdict = met.length > 0 ? 'pass' : open.length > 0 || counted.length === 0 ? 'cannot-tell' : 'fail'
  const because =
    met.length > 0
      ? `met: ${met.map((o) => o.title).join('; ')}`
      : open.length > 0
        ? `no option is met for certain; open: ${open.map((o) => `${o.title} (${o.because})`).join('; ')}`
        : `none of the ${counted.length} options that apply is met`
  return {
    rule: 'us.fsis.stabilization',
    title: 'Stabilization: cooled by at least one published option',
    jurisdiction: 'US',
    verdict,
    weight: 'limit',
    unit: '',
    because,
    ...(verdict === 'cannot-tell'
      ? { settle: open.map((o) => o.settle ?? '').filter(Boolean)[0] ?? 'a log of the whole chill' }
      : {}),
    source: face(stabilizationSource),
    inForce: {},
  }
}

const judgeOptions = (question: CoolingQuestion): Judged[] =>
  coolingOptions.flatMap((o) => judgeOption(o, question) ?? [])

/** What the standard comes to for one of the two products; the options themselves stand beside it. */
const inShort = ({ verdict, because }: Finding): string =>
  verdict === 'cannot-tell' ? 'it cannot be told yet' : verdict === 'pass' ? `it is met (${because})` : because

/** The standard for a product of which nobody said whether it is cured: it fails where both do, and passes nothing. */
function curedOrNot(question: CoolingQuestion): Finding {
  const [uncured, cured] = [false, true].map((is) =>
    stabilization(judgeOptions({ ...question, product: { ...question.product, cured: is } })),
  ) as [Finding, Finding]
  if (uncured.verdict === 'fail' && cured.verdict === 'fail')
    return { ...cured, because: `cured or not, ${cured.because}` }
  const { settle: _settle, ...rest } = cured
  return {
    ...rest,
    verdict: 'cannot-tell',
    because: `whether the product is cured is not said: without cure ${inShort(uncured)}; cured ${inShort(cured)}`,
    settle: [
      'say whether the product is cured, and of a cured one its ingoing nitrite and erythorbate or ascorbate',
      ...(uncured.verdict === 'cannot-tell' && uncured.settle !== undefined ? [uncured.settle] : []),
    ].join('; '),
  }
}

/**
 * Findings of every published cooling option that applies to the product (weight advice), and of the standard they serve (weight limit), last.
 * Where nobody said whether the product is cured the options of both are judged.
 */
export function judgeCooling(question: CoolingQuestion): Finding[] {
  const options = judgeOptions(question)
  const standard = question.product.cured === undefined ? curedOrNot(question) : stabilization(options)
  const note = question.errorUnknown ? errorUnknownNote : ''
  return [...options.map((o) => o.finding), standard].map((f) => ({
    ...f,
    because: `${f.because}${note}`,
  }))
}
