import { overall } from '@forcemeat/craft/finding'
import { freezing } from '@forcemeat/craft/pork/freezing'
import { paperKinds, papers, wayOfPaper, type Paper } from '../../data/pork/papers.ts'
import type { Finding } from '../rule.ts'
import { strangeCentre } from './centre-log.ts'
import type { BatchFacts } from './facts.ts'
import { clashOf, endOf } from './freeze-times.ts'
import { meantMm, THIN_BLOCK_MM } from '../pork/thin.ts'
import { trustOn } from './instrument-days.ts'
import type { MeatSource } from './meat-origin.ts'
import type { CentreLog, LotTreatment } from './slow-facts.ts'
import { madeAt } from './went-in.ts'

export type Answer = { readonly verdict: Finding['verdict']; readonly because: string; readonly settle?: string }
export type TreatmentJudged = Answer & {
  readonly way: string
  /** Entry of the treatment; absent for a paper entered with the lot. */
  readonly seq?: number
  readonly findings: readonly Finding[]
}

type Place = 'US' | 'EU'
const homes: Readonly<Record<string, Place>> = { US: 'US', 'US-home': 'US', EU: 'EU', GB: 'EU' }
export const best = { pass: 0, 'cannot-tell': 1, fail: 2 } as const
export const settleAll =
  'freezing by a published schedule before it is weighed in, the paper of a certified herd or of a test for this lot, or a cook that kills Trichinella'

/** Places whose schedules or papers are asked for; where the rulebook holds none of a place, both published texts serve. */
const textsFor = (jurisdictions: readonly string[]): { texts: readonly Place[]; strange: readonly string[] } => {
  const texts = [...new Set(jurisdictions.flatMap((j) => homes[j] ?? []))]
  return { texts, strange: jurisdictions.filter((j) => homes[j] === undefined) }
}

export const words = (s: string): string => s.replaceAll('-', ' ')

/** A treatment that was still running when its meat was taken off or weighed in proves nothing of that meat. */
function tooLate(
  end: string | undefined,
  on: string,
  facts: BatchFacts,
  lot: string | undefined,
  before: string | undefined,
): string | undefined {
  const weighed = facts.weighings.filter((w) => w.lot === lot).flatMap((w) => w.at ?? [])
  const first = weighed.toSorted()[0]
  const { mixed, stuffed, hung } = madeAt(facts)
  const made = [mixed, stuffed, hung].flatMap((at) => (at === undefined ? [] : [new Date(at * 1000).toISOString()]))
  const last = [before, `${facts.on}T23:59:59.999Z`, first, ...made].filter((x) => x !== undefined).toSorted()[0]!
  const until = end ?? `${on}T00:00:00.000Z`
  return until > last
    ? `it ended ${until.slice(0, 16).replace('T', ' ')}, after the meat was taken for this batch`
    : undefined
}

function byFreezing(
  t: LotTreatment,
  source: MeatSource,
  facts: BatchFacts,
  centres: readonly CentreLog[],
): Answer & { findings: readonly Finding[] } {
  const day = (t.until ?? t.on).slice(0, 10)
  const trust = trustOn(facts, t.instrument, day, 'thermometer of the freezing')
  const { texts, strange } = textsFor(facts.jurisdictions)
  const asked = [...new Set<Place>(strange.length > 0 && texts.length === 0 ? ['US', 'EU'] : texts)]
  const centre = t.way === 'frozen-centre' ? centres.find((c) => c.seq === t.seq) : undefined
  const none = (because: string, settle: string) => ({ verdict: 'cannot-tell' as const, because, settle, findings: [] })
  if (t.way === 'frozen-centre' && !centre)
    return none('the log of the centre could not be read', 'the file of the log')
  if (centre?.trouble !== undefined) return none(centre.trouble, 'the log of the centre as a file that can be read')
  if (centre && centre.log.length < 2) return none('the log of the centre holds no two readings', 'the whole log')
  if (
    t.way === 'frozen-room' &&
    (t.thicknessMm === undefined || t.roomC === undefined || t.from === undefined || t.until === undefined)
  )
    return none(
      'thickness, room temperature, begin or end are missing',
      'the record of the freezer: thickness, warmest temperature, from when until when',
    )
  const byThickness = (thicknessMm: number) =>
    freezing({
      thicknessMm,
      species: source.species,
      toleranceC: trust.ok ? (trust.instrument.toleranceC ?? 0) : 0,
      jurisdictions: asked,
      ...(centre ? { log: [...centre.log] } : {}),
      ...(t.way === 'frozen-room'
        ? { storageC: t.roomC!, days: (Date.parse(t.until!) - Date.parse(t.from!)) / 86_400_000 }
        : {}),
    }).findings
  // For places the rulebook has no schedule of, either published text serves.
  const served = (found: readonly Finding[]) =>
    texts.length === 0 ? found.map((f) => ({ ...f, ...(f.anyOf ? { anyOf: 'any' } : {}) })) : found
  const findings = byThickness(t.thicknessMm ?? 1)
  const grouped = served(findings)
  const verdict = overall(grouped)
  const told = grouped.toSorted((a, b) => best[a.verdict] - best[b.verdict])
  const because = told[0]?.because ?? 'no schedule of the place is in the rulebook'
  const settle = told.find((f) => f.settle !== undefined)?.settle
  if (verdict !== 'pass') return { verdict, because, ...(settle === undefined ? {} : { settle }), findings }
  if (!trust.ok)
    return { verdict: 'cannot-tell', because: `${because}; but ${trust.because}`, settle: trust.settle, findings }
  const typed = t.thicknessMm
  if (t.way === 'frozen-room' && typed !== undefined && typed < THIN_BLOCK_MM && !t.thicknessConfirmed) {
    // A slip of the unit is harmless where the days are enough for what may have been meant as well.
    const other = meantMm(typed).find((mm) => overall(served(byThickness(mm))) !== 'pass')
    if (other !== undefined)
      return {
        verdict: 'cannot-tell',
        because: `${because}; but ${typed} mm is thin for a block of meat, and if ${Number(other.toFixed(1))} mm was meant it was not held long enough`,
        settle: 'the treatment corrected: the thickness in mm, or a word that it was measured so',
        findings,
      }
  }
  if (trust.instrument.toleranceC === undefined)
    return {
      verdict: 'cannot-tell',
      because: `${because}; but how far ${trust.instrument.name} may be off is not known`,
      settle: `enter the largest error of ${trust.instrument.name}`,
      findings,
    }
  const stands =
    strange.length === 0
      ? ''
      : ` (the rulebook holds no schedule of ${strange.join(', ')}: the published ones stand in)`
  return { verdict, because: `${because}${stands}`, findings }
}

/** A paper on the lot, where every place asked about lets it stand. */
export function byPaper(way: Paper['way'], source: MeatSource, facts: BatchFacts, reference: string): Answer {
  const { texts, strange } = textsFor(facts.jurisdictions)
  if (strange.length > 0)
    return {
      verdict: 'cannot-tell',
      because: `whether ${strange.join(', ')} lets such a paper stand was not read`,
      settle: `the law of ${strange.join(', ')}, or freezing by a published schedule`,
    }
  const game = source.species !== 'pork'
  const held = texts.map((place) => papers.find((p) => p.way === way && p.place === place && (p.game || !game)))
  if (held.some((p) => p === undefined))
    return way === 'freezing-certificate' && game
      ? {
          verdict: 'fail',
          because: `${words(source.species)} can carry Trichinella that survive freezing`,
          settle: 'a test of each carcass, or a cook that kills Trichinella',
        }
      : {
          verdict: 'cannot-tell',
          because: `such a paper does not stand for ${words(source.species)}`,
          settle: 'a test of each carcass, or a cook that kills Trichinella',
        }
  return {
    verdict: 'pass',
    because: `${held[0]!.asks.replace(', for this lot', '')}: ${reference} (${[...new Set(held.map((p) => p!.source.document))].join('; ')})`,
  }
}

/** What one treatment says of the meat behind a lot that was weighed in. */
export function byTreatment(
  { treatment: t, before }: MeatSource['treatments'][number],
  source: MeatSource,
  facts: BatchFacts,
  lot: string | undefined,
  centres: readonly CentreLog[],
): TreatmentJudged {
  const frozen = t.way === 'frozen-room' || t.way === 'frozen-centre'
  const log = centres.find((c) => c.seq === t.seq)
  const end = frozen ? endOf(t, log) : undefined
  const late = frozen
    ? tooLate(end, t.on, facts, lot, before)
    : t.on > facts.on
      ? 'it is dated after the batch'
      : undefined
  const named = { way: t.way, seq: t.seq }
  if (late !== undefined)
    return { ...named, verdict: 'fail' as const, because: `${words(t.way)}: ${late}`, settle: settleAll, findings: [] }
  if (frozen) {
    const judged = byFreezing(t, source, facts, centres)
    const against =
      judged.verdict === 'pass'
        ? (clashOf(facts, t, t.way === 'frozen-centre' ? log : undefined) ??
          (t.way === 'frozen-centre' && log ? strangeCentre(t, log) : undefined))
        : undefined
    return against === undefined
      ? { ...named, ...judged }
      : {
          ...named,
          ...judged,
          verdict: 'cannot-tell',
          because: `${judged.because}; but ${against.because}`,
          settle: against.settle ?? settleAll,
        }
  }
  if (t.way === 'certified-herd' || t.way === 'tested') {
    const paper = t.document
    return {
      ...named,
      findings: [],
      ...(paper === undefined
        ? {
            verdict: 'cannot-tell' as const,
            because: `${words(t.way)}, but no paper says so`,
            settle: 'the paper: what it is, its number, who issued it',
          }
        : wayOfPaper(paper.kind) === t.way
          ? byPaper(t.way, source, facts, `${paper.kind} ${paper.reference}`)
          : {
              verdict: 'cannot-tell' as const,
              because: `${words(t.way)}, by a paper called ${JSON.stringify(paper.kind)}: it cannot be told what that proves`,
              settle: `a paper that is a ${paperKinds[t.way].join(' or a ')}, recorded as that`,
            }),
    }
  }
  if (t.way === 'published-cure')
    return {
      ...named,
      findings: [],
      verdict: 'cannot-tell' as const,
      because:
        'a published curing method was named; its salt, plate, diameter and days in the drying room are not proven by a paper alone',
      settle:
        'each figure of the method measured and signed by a qualified person, or freezing before curing; curing is no method for game',
    }
  return {
    ...named,
    findings: [],
    verdict: 'fail' as const,
    because: 'the meat was kept for a product that is cooked later',
    settle: settleAll,
  }
}
