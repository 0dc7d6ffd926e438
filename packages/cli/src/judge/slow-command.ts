import type { Answers } from '@forcemeat/craft/log/format'
import { porkSpecies } from '@forcemeat/craft/pork/schema'
import type { Verdict } from '@forcemeat/craft/finding'
import { TARGET_PH } from '@forcemeat/rulebook/batch/target-ph'
import { PH_METER } from '@forcemeat/rulebook/batch/instrument-days'
import { exit, Stop } from '../command.ts'
import { fermentPlaces, judgeFermentLog } from './judge-ferment.ts'
import { freezingPlaces, judgeFreezingLog } from './judge-freezing.ts'
import { typed, type Mode } from './modes.ts'
import { numberIn, oneIn, someIn } from './options.ts'
import { phsInFile, phsInText } from './ph-given.ts'
import { fermentTable, freezingTable } from './slow-table.ts'
import type { System } from './table.ts'
import { wholeLog } from './whole-log.ts'

type Given = Readonly<Record<string, unknown>>

const textOf = (given: Given, name: string): string | undefined => {
  const value = given[name]
  return typeof value === 'string' ? value : undefined
}

export type SlowAsked = {
  readonly mode: Exclude<Mode, 'cook-and-chill'>
  readonly file: string
  readonly answers: Answers
  readonly given: Given
  readonly raw: readonly string[]
  readonly system: System
}

/** What was judged, as JSON and as a person reads it. */
export type Told = { readonly verdict: Verdict; readonly judgement: object; readonly text: string }

const shared = (given: Given) => ({
  ...numberIn('toleranceC', textOf(given, 'tolerance-c'), 0, 20),
  checkOverdue: given['check-overdue'] === true,
})

async function ferment({ file, answers, given, raw, system }: SlowAsked): Promise<Told> {
  const [list, from] = [textOf(given, 'ph'), textOf(given, 'ph-file')]
  if (list !== undefined && from !== undefined)
    throw new Stop(exit.badInput, '--ph: is given beside --ph-file; allowed: one of the two')
  // A count that ended before the published pH would prove nothing: a target may only be lower.
  const { targetPh = TARGET_PH } = numberIn('targetPh', textOf(given, 'target-ph'), 3, TARGET_PH)
  const asked = {
    ...shared(given),
    ...numberIn('phTolerance', textOf(given, 'ph-tolerance'), PH_METER.finest, 1),
    targetPh,
    phs: list === undefined ? (from === undefined ? [] : await phsInFile(from)) : phsInText(list),
    places: someIn('place', textOf(given, 'place'), fermentPlaces) ?? fermentPlaces,
    ...(typed(raw, 'ph-meter-calibrated') ? { calibrated: given['ph-meter-calibrated'] === true } : {}),
  }
  if (asked.phs.length === 0 && typed(raw, 'ph-meter-calibrated'))
    throw new Stop(exit.badInput, '--ph-meter-calibrated: goes unused; allowed: with --ph or --ph-file')
  if (asked.phs.length === 0 && asked.phTolerance !== undefined)
    throw new Stop(exit.badInput, '--ph-tolerance: goes unused; allowed: with --ph or --ph-file')
  const judgement = judgeFermentLog(await wholeLog(file, answers, 'air'), asked)
  return { verdict: judgement.verdict, judgement, text: fermentTable(judgement, system) }
}

async function freeze({ file, answers, given, system }: SlowAsked): Promise<Told> {
  const { thicknessMm } = numberIn('thicknessMm', textOf(given, 'thickness-mm'), 1, 10_000)
  if (thicknessMm === undefined)
    throw new Stop(
      exit.badInput,
      '--thickness-mm: is missing; allowed: the smallest dimension of the piece, or of the layer of meat in its box, mm',
    )
  const places = someIn('place', textOf(given, 'place'), freezingPlaces)
  const judgement = judgeFreezingLog(await wholeLog(file, answers, 'centre'), {
    ...shared(given),
    thicknessMm,
    ...oneIn('species', textOf(given, 'species'), porkSpecies),
    ...(places === undefined ? {} : { places }),
  })
  return { verdict: judgement.verdict, judgement, text: freezingTable(judgement, system) }
}

/** Judge a log of hours and days: a fermentation or a freezing. @throws Stop for what cannot be used */
export const judgeSlow = (asked: SlowAsked): Promise<Told> =>
  asked.mode === 'ferment' ? ferment(asked) : freeze(asked)
