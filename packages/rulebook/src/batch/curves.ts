import { chill, type Chill, type CoolingProduct } from '@forcemeat/craft/heat/chill'
import {
  lethality,
  type Lethality,
  type LethalityProduct,
  type ThermometerDoubt,
} from '@forcemeat/craft/heat/lethality'
import type { RecipeComputed } from '@forcemeat/craft/recipe/compute-schema'
import type { Finding } from '../rule.ts'
import { inDate, standingOf, type BatchFacts, type BatchInstrument, type CurveChannel } from './facts.ts'
import { recordFinding } from './own-rules.ts'
import { isSlow } from './slow-kind.ts'

export type JudgedChannel = {
  readonly seq: number
  readonly column: string
  readonly lethality?: Lethality
  readonly chill?: Chill
}

const poultry = ['chicken', 'turkey', 'duck'] as const

/** The table a mix is judged by: any poultry makes it poultry, and two kinds or another kind take the longer times. */
function productOf({ facts, measures }: RecipeComputed): LethalityProduct {
  const birds = poultry.filter((s) => facts[`species:${s}`])
  const fat = measures['fatPct']
  const species: NonNullable<LethalityProduct['species']> =
    birds.length === 0 ? 'meat' : birds.length > 1 || birds[0] === 'duck' ? 'other-poultry' : birds[0]!
  return {
    species,
    ...(fat && 'value' in fat ? { fatPct: fat.high ?? fat.value } : {}),
  }
}

function coolingProduct({ facts, cure, measures }: RecipeComputed): CoolingProduct {
  const figure = (name: string) => {
    const m = measures[name]
    return m && 'value' in m ? (m.low ?? m.value) : undefined
  }
  const [salt, water] = [figure('saltPct'), figure('waterPct')]
  const accelerator = (cure.erythorbatePpm ?? 0) + (cure.ascorbatePpm ?? 0)
  return {
    cured: facts['cured'] === true,
    intact: false,
    ...(cure.nitritePpm === undefined ? {} : { nitritePpm: cure.nitritePpm, erythorbatePpm: accelerator }),
    ...(salt === undefined ? {} : { saltPct: salt }),
    ...(water === undefined ? {} : { waterPct: water }),
  }
}

const order = { fail: 0, 'cannot-tell': 1, pass: 2 } as const

/** Of each rule, the finding of the probe that did worst. */
function worstOf(all: readonly (Finding & { readonly probe: string })[]): Finding[] {
  const byRule = Map.groupBy(all, (f) => f.rule)
  return [...byRule.values()].map((same) => {
    const { probe, ...worst } = same.toSorted(
      (a, b) => order[a.verdict] - order[b.verdict] || (a.margin ?? 0) - (b.margin ?? 0),
    )[0]!
    return same.length > 1
      ? { ...worst, because: `${worst.because} (probe ${probe}, the one that did worst of ${same.length})` }
      : worst
  })
}

/** A pass by a thermometer whose error nobody entered is not one yet. */
const withError = (f: Finding, unsure: string | undefined): Finding =>
  unsure === undefined || f.verdict !== 'pass'
    ? f
    : {
        ...f,
        verdict: 'cannot-tell',
        because: `${f.because}; but how far ${unsure} may be off is not known`,
        settle: `enter the largest error of ${unsure}`,
      }

/** Why the instrument of a probe proves nothing; undefined where it may be believed. */
function instrumentDoubt(
  probe: string,
  code: string | undefined,
  found: BatchInstrument | undefined,
): ThermometerDoubt | undefined {
  if (found === undefined)
    return {
      because:
        code === undefined
          ? `no instrument is named on the log of probe ${probe}`
          : `no instrument ${code} is recorded`,
      settle: 'correct the curve: name the logger or thermometer that recorded it',
    }
  if (inDate(found)) return undefined
  return {
    because: standingOf(found),
    settle:
      found.inDoubt === undefined
        ? `check ${found.name} (ice point, boiling point); if it reads true, record the check`
        : `say for this batch whether the readings of ${found.name} stand, and why`,
  }
}

/** Days before and after its batch's own day that a dated log may begin; choices of ours. A slow batch may be cooked weeks on. */
const daysAllowed = (facts: BatchFacts): { before: number; after: number } =>
  isSlow(facts) ? { before: 1, after: 60 } : { before: 2, after: 2 }
/** A clock whose zone nobody said may run so far from UTC, and so may the batch's own day, hours. */
const ZONE_H = 14

/** What the file's own dates say against its being of this batch. */
function ofAnotherTime(facts: BatchFacts, { starts }: CurveChannel): string | undefined {
  if (starts === undefined) return undefined
  const { before, after } = daysAllowed(facts)
  const hours = (starts.at - Date.parse(`${facts.on}T00:00:00Z`) / 1000) / 3600
  if (hours >= -24 * before - ZONE_H && hours < 24 * (after + 1) + ZONE_H) return undefined
  return `the file's own dates are not the batch's: it begins ${new Date(starts.at * 1000).toISOString().slice(0, 10)}, and the batch is of ${facts.on}`
}

const settleDates = 'the log of this batch; or the curve corrected by how much the clock of the logger was wrong'

/** A pass by a log of another time is none. */
const withDates = (f: Finding, foreign: string | undefined): Finding =>
  foreign === undefined || f.verdict !== 'pass'
    ? f
    : { ...f, verdict: 'cannot-tell', because: `${f.because}; but ${foreign}`, settle: settleDates }

/** Every core channel of the batch's curves held against the lethality tables and the cooling options; the worst probe decides. */
export function judgeCurves(
  facts: BatchFacts,
  computed: RecipeComputed,
  channels: readonly CurveChannel[],
): { findings: Finding[]; judged: JudgedChannel[] } {
  const instruments = new Map(facts.instruments.map((i) => [i.instrument, i]))
  const product = productOf(computed)
  const cooled = coolingProduct(computed)
  const found: (Finding & { probe: string })[] = []
  const judged: JudgedChannel[] = []
  const troubles: string[] = []
  const foreigners = new Set<string>()
  let [cooks, chills] = [0, 0]
  for (const curve of facts.curves) {
    if (curve.purpose === 'ferment' || curve.purpose === 'dry') continue
    for (const channel of curve.channels) {
      if (channel.role !== 'core') continue
      const read = channels.find((c) => c.seq === curve.seq && c.column === channel.column)
      if (!read || read.trouble !== undefined || read.log.every((r) => r.coreC === null)) {
        troubles.push(read?.trouble ?? `the file of probe ${channel.column} could not be read`)
        continue
      }
      const thermometer = channel.instrument === undefined ? undefined : instruments.get(channel.instrument)
      const probe = channel.column
      // A probe nobody can name, or past its check, proves nothing.
      const doubted = instrumentDoubt(probe, channel.instrument, thermometer)
      const shared = { toleranceC: thermometer?.toleranceC ?? 0, ...(doubted === undefined ? {} : { doubted }) }
      const unsure = thermometer !== undefined && thermometer.toleranceC === undefined ? thermometer.name : undefined
      const foreign = ofAnotherTime(facts, read)
      if (foreign !== undefined) foreigners.add(foreign)
      const stands = (f: Finding): Finding => withDates(withError(f, unsure), foreign)
      const cook =
        curve.purpose === 'chill'
          ? undefined
          : lethality({
              log: read.log,
              organism: 'salmonella',
              product,
              ...(facts.recipeBody.casing ? { humidity: { exempt: 'moisture-holding-casing' } } : {}),
              ...shared,
            })
      const cooling =
        curve.purpose === 'cook'
          ? undefined
          : chill({
              log: read.log,
              product: cooled,
              ...(curve.chillStartMinute === undefined ? {} : { chillStartMinute: curve.chillStartMinute }),
              ...shared,
            })
      if (cook) {
        cooks += 1
        found.push(...cook.findings.map((f) => ({ ...stands(f), probe })))
      }
      if (cooling) {
        chills += 1
        found.push(...[...cooling.findings, cooling.stabilization].map((f) => ({ ...stands(f), probe })))
      }
      judged.push({
        seq: curve.seq,
        column: channel.column,
        ...(cook ? { lethality: cook } : {}),
        ...(cooling ? { chill: cooling } : {}),
      })
    }
  }
  const findings = worstOf(found)
  if (facts.recipeBody.kind === 'cooked') {
    findings.push(logFinding('cookLog', cooks, troubles, 'the log of a core probe through the cook'))
    findings.push(logFinding('chillLog', chills, troubles, 'the log of a core probe through the chill'))
  }
  if (foreigners.size > 0)
    findings.push(
      recordFinding('curveDates', {
        verdict: 'cannot-tell',
        because: [...foreigners].join('; '),
        settle: settleDates,
      }),
    )
  return { findings, judged }
}

function logFinding(of: 'cookLog' | 'chillLog', count: number, troubles: readonly string[], settle: string): Finding {
  if (troubles.length > 0) return recordFinding(of, { verdict: 'cannot-tell', because: troubles.join('; '), settle })
  if (count === 0) return recordFinding(of, { verdict: 'cannot-tell', because: 'no core log is recorded', settle })
  return recordFinding(of, { verdict: 'pass', because: `${count} core probe${count > 1 ? 's' : ''} recorded` })
}
