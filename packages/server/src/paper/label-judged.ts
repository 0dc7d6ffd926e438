import { InvalidInput } from '@forcemeat/craft/calculation'
import { blocksOf } from '@forcemeat/craft/declare/label/blocks'
import type { LabelBlock, LabelInput } from '@forcemeat/craft/declare/label/schema'
import { overall, type Finding } from '@forcemeat/craft/finding'
import { findRule } from '@forcemeat/rulebook/catalogue'
import type { BatchRecord, Ledger } from '@forcemeat/ledger'
import { judged } from '../judge/judged.ts'

type Failed = NonNullable<LabelInput['failed']>

const of = (findings: readonly Finding[], place: string): Finding[] =>
  findings.filter((f) => f.weight !== 'advice' && (f.jurisdiction === place || f.jurisdiction === 'everywhere'))

/** Limits that fail in a place or everywhere and have no alternative that passes. */
export const failedOf = (findings: readonly Finding[], place: string): Failed =>
  of(findings, place)
    .filter((f) => f.verdict === 'fail')
    // An alternative that passes makes up for the one that fails.
    .filter((f) => f.anyOf === undefined || overall(findings.filter((g) => g.anyOf === f.anyOf)) !== 'pass')
    .map((f) => ({ title: f.title.slice(0, 200), because: f.because.slice(0, 2000) }))

/**
 * Subjects on which a batch must be told before its label is approved: what is in it. A label is approved before the cook, the chill or
 * the release, which stop the release by themselves.
 */
const ofContent = new Set<string>(['cure', 'composition', 'additive', 'label'])
const recordOfContent = new Set(['record.weighed', 'record.rework-allergens', 'record.rework-cure'])

/** A limit it keeps, of which only the source's own text was not read: for that a person may answer. */
const onlySecondHand = (f: Finding): boolean =>
  f.margin !== undefined && f.margin >= 0 && findRule(f.rule)?.values.some((v) => v.secondHand !== undefined) === true

/** What cannot be told of what is in a batch, in a place or everywhere. */
function openOf(findings: readonly Finding[], place: string): LabelBlock[] {
  const weighed = findings.find((f) => f.rule === 'record.weighed')?.verdict === 'pass'
  const content = of(findings, place).filter(
    (f) => recordOfContent.has(f.rule) || ofContent.has(findRule(f.rule)?.topic ?? ''),
  )
  const waiting = new Set(
    content.filter((f) => f.verdict === 'cannot-tell' && (weighed || !f.because.startsWith('as planned'))),
  )
  // Alternatives that pass have to be there for `blocksOf`; what fails is said elsewhere.
  return blocksOf(content.filter((f) => f.verdict === 'pass' || waiting.has(f))).map((b) => {
    const f = [...waiting].find((w) => b.id === `${w.rule}@${w.jurisdiction}`)
    return f && onlySecondHand(f) ? { ...b, by: 'person' } : b
  })
}

/** What the judgement of a batch has to say to its label. */
export type JudgedForLabel = Pick<LabelInput, 'stability'> & {
  readonly failed: Failed
  readonly open: readonly LabelBlock[]
  /** Loss of its weighed pieces, %, where their weighings count. */
  readonly piecesLossPct?: number
}

/**
 * A batch held against the limits of the place its label is for, beside those it was planned for. A batch that cannot be judged as it was
 * weighed fails as a whole. Nothing of it is signed.
 */
export async function judgedFor(
  ledger: Ledger,
  record: BatchRecord,
  place: LabelInput['place'],
): Promise<JudgedForLabel> {
  const slow = record.recipeKind === 'fermented' || record.recipeKind === 'dried'
  try {
    const { findings, dry } = await judged(ledger, {
      ...record,
      jurisdictions: [...new Set([...record.jurisdictions, place])],
    })
    const pieces = dry?.loss.pieces ?? []
    const counts = pieces.length > 0 && pieces.every((p) => p.unproven === undefined && p.strange === undefined)
    return {
      failed: failedOf(findings, place),
      open: openOf(findings, place),
      ...(slow ? { stability: dry?.class ?? 'cannot-tell' } : {}),
      ...(counts && dry?.loss.meanPct !== undefined ? { piecesLossPct: dry.loss.meanPct } : {}),
    }
  } catch (error) {
    if (!(error instanceof InvalidInput)) throw error
    const because = error.faults.map((f) => `${f.path} ${f.message}`).join('; ')
    return {
      failed: [{ title: 'The batch can be judged', because: because.slice(0, 2000) }],
      open: [],
      ...(slow ? { stability: 'cannot-tell' } : {}),
    }
  }
}
