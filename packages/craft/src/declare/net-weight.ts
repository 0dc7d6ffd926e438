import type { WorkingStep } from '../finding.ts'
import { normalQuantile } from '../numeric/normal.ts'
import { figures, judge } from '../rules.ts'
import type { NetWeightInput, NetWeightOutput } from './net-weight-schema.ts'
import { studentQuantile } from './student-t.ts'
import {
  allowableVariation,
  sdForNominal,
  shareBelow,
  targetFill,
  targetFillUs,
  tolerableError,
} from './target-fill.ts'

/** Point of chi-square with `freedom` degrees, by the cube-root approximation of Wilson and Hilferty (within 1 % from 2 degrees up). */
function chiSquareQuantile(p: number, freedom: number): number {
  const a = 2 / (9 * freedom)
  return freedom * Math.max(1e-3, 1 - a + normalQuantile(p) * Math.sqrt(a)) ** 3
}

const total = (values: readonly number[]): number => values.reduce((s, v) => s + v, 0)

/**
 * Net weights of a sample of packs of one nominal quantity, held against the packers' rules of the average system and the reference test,
 * with the least target fill the spread found allows.
 *
 * @param input nominal quantity and weights in g; tare one for all or one each; the size of the batch they were drawn from
 * @returns mean, spread, packs short of T1 and T2, findings, and the target fill
 * @source Directive 76/211/EEC, Annexes I and II; SI 2006/659, Schedule 2
 */
export function netWeight(input: NetWeightInput): NetWeightOutput {
  const { nominalG, batchSize, destructive, scaleErrorG, jurisdictions = ['EU', 'GB'], on } = input
  const rules = figures('netWeight')
  const net = input.weightsG.map((w, i) => w - (input.taresG?.[i] ?? input.tareG ?? 0))
  const n = net.length
  const averageG = total(net) / n
  const sdG = Math.sqrt(total(net.map((w) => (w - averageG) ** 2)) / (n - 1))
  const allWeighed = batchSize === n
  const half = allWeighed ? 0 : (studentQuantile(0.975, n - 1) * sdG) / Math.sqrt(n)
  const sdHighG = sdG * Math.sqrt((n - 1) / chiSquareQuantile(0.05, n - 1))
  const tneG = tolerableError(nominalG, rules)
  // A weight that equals a limit but for the last bit of its digits is at the limit, not under it.
  const under = (limit: number) => net.filter((w) => w < limit - 1e-9).length
  const short =
    tneG === undefined
      ? {}
      : {
          tneG,
          t1G: nominalG - tneG,
          t2G: nominalG - 2 * tneG,
          belowT1: under(nominalG - tneG),
          belowT2: under(nominalG - 2 * tneG),
        }
  const mavG = jurisdictions.includes('US') ? allowableVariation(nominalG, rules) : undefined
  const expected = (limit: number) =>
    sdG > 0 ? 100 * shareBelow((limit - averageG) / sdG) : averageG < limit ? 100 : 0
  const findings = judge('netWeight', {
    jurisdictions,
    nominalG,
    n,
    averageG,
    averageLowG: averageG - half,
    averageHighG: averageG + half,
    sdG,
    allWeighed,
    lightestG: Math.min(...net),
    tOverRootN: (p) => studentQuantile(p, n - 1) / Math.sqrt(n),
    ...(on === undefined ? {} : { on }),
    ...(batchSize === undefined ? {} : { batchSize }),
    ...(destructive === undefined ? {} : { destructive }),
    ...(scaleErrorG === undefined ? {} : { scaleErrorG }),
    ...(mavG === undefined ? {} : { mavG, belowMav: under(nominalG - mavG) }),
    ...('tneG' in short ? { tneG: short.tneG, belowT1: short.belowT1, belowT2: short.belowT2 } : {}),
  })
  return {
    n,
    averageG,
    sdG,
    averageLowG: averageG - half,
    averageHighG: averageG + half,
    sdHighG,
    ...short,
    giveawayPct: (100 * (averageG - nominalG)) / nominalG,
    ...(tneG === undefined
      ? {}
      : {
          target: targetFill(nominalG, sdG, tneG, rules),
          cautiousTarget: targetFill(nominalG, sdHighG, tneG, rules),
          sdForNominalG: sdForNominal(tneG, rules),
          expectedBelowT1Pct: expected(nominalG - tneG),
          expectedBelowT2Pct: expected(nominalG - 2 * tneG),
        }),
    ...(mavG === undefined ? {} : { mavG, targetUs: targetFillUs(nominalG, sdG, mavG, rules) }),
    findings,
    working: working(averageG, sdG, n, short),
  }
}

function working(
  averageG: number,
  sdG: number,
  n: number,
  short: { tneG?: number; t1G?: number; t2G?: number },
): WorkingStep[] {
  const g = (step: string, expression: string, value: number | undefined): WorkingStep[] =>
    value === undefined ? [] : [{ step, expression, value, unit: 'g' }]
  return [
    ...g('mean net weight', `sum of ${n} net weights / ${n}`, averageG),
    ...g('standard deviation', 'root of the sum of squares about the mean / (n − 1)', sdG),
    ...g('tolerable negative error', 'of the nominal quantity, by the table', short.tneG),
    ...g('T1', 'nominal − tolerable error', short.t1G),
    ...g('T2', 'nominal − 2 × tolerable error', short.t2G),
  ]
}
