import type { NetWeightQuestion } from '@forcemeat/craft/declare/net-weight-schema'
import type { Finding } from '@forcemeat/craft/finding'
import {
  netWeightFigures,
  netWeightRules,
  referencePlan,
  unheldNetWeight,
  usNetWeight,
  usPlan,
  usShort,
} from '../../data/declare/net-weight.ts'
import { heading } from '../evaluate.ts'
import type { Rule } from '../rule.ts'

type Q = NetWeightQuestion
type Said = Pick<Finding, 'verdict' | 'because'> & Partial<Pick<Finding, 'settle' | 'measured' | 'limit' | 'margin'>>

const say = (rule: Rule, said: Said): Finding => ({ ...heading(rule, rule.values[0]!), ...said })
const short = (x: number): string => String(Number(x.toFixed(3)))
const compared = (measured: number, limit: number, atLeast: boolean) => ({
  measured,
  limit,
  margin: atLeast ? measured - limit : limit - measured,
})
// Sums of decimal weights carry errors in their last bits.
const atLeast = (value: number, limit: number): boolean => value >= limit - 1e-9

function average(q: Q): Said {
  const figure = compared(q.averageG, q.nominalG, true)
  const mean = `mean of ${q.n} packs ${short(q.averageG)} g`
  if (atLeast(q.averageLowG, q.nominalG))
    return {
      ...figure,
      verdict: 'pass',
      because: q.allWeighed
        ? `${mean}, every pack weighed`
        : `${mean}, of the batch at least ${short(q.averageLowG)} g (95 %)`,
    }
  if (!atLeast(q.averageHighG, q.nominalG))
    return { ...figure, verdict: 'fail', because: `${mean}; nominal ${short(q.nominalG)} g` }
  return {
    ...figure,
    verdict: 'cannot-tell',
    because: `${mean}; the mean of the batch lies between ${short(q.averageLowG)} and ${short(q.averageHighG)} g (95 %), on both sides of ${short(q.nominalG)} g`,
    settle: 'weigh more packs, or fill a little higher',
  }
}

const unknownBatch: Said = {
  verdict: 'cannot-tell',
  because: 'the number of packs in the batch is not given',
  settle: 'enter batchSize',
}

function meanTest(q: Q): Said {
  if (q.batchSize === undefined) return unknownBatch
  if (q.batchSize < referencePlan.smallestBatch) {
    if (!q.allWeighed)
      return {
        verdict: 'cannot-tell',
        because: `a batch of ${q.batchSize} is judged on every pack; ${q.n} were weighed`,
        settle: `weigh all ${q.batchSize} packs`,
      }
    const pass = atLeast(q.averageG, q.nominalG)
    return {
      ...compared(q.averageG, q.nominalG, true),
      verdict: pass ? 'pass' : 'fail',
      because: `mean of all ${q.n} packs ${short(q.averageG)} g, nominal ${short(q.nominalG)} g`,
    }
  }
  const plan = q.destructive ? referencePlan.destructiveMean : referencePlan.mean.find((p) => q.batchSize! <= p.upTo)!
  if (q.n < plan.n)
    return {
      verdict: 'cannot-tell',
      because: `the test asks for ${plan.n} packs; ${q.n} were weighed`,
      settle: `weigh ${plan.n} packs drawn at random`,
    }
  // A larger sample is judged by the formula behind the printed factors.
  const k = q.n === plan.n ? plan.k : q.tOverRootN(referencePlan.probability)
  const limit = q.nominalG - k * q.sdG
  return {
    ...compared(q.averageG, limit, true),
    verdict: atLeast(q.averageG, limit) ? 'pass' : 'fail',
    because: `mean of ${q.n} packs ${short(q.averageG)} g; accepted from ${short(q.nominalG)} − ${short(k)} × ${short(q.sdG)} = ${short(limit)} g`,
  }
}

function share(q: Q, belowT1: number): Said {
  const measured = (100 * belowT1) / q.n
  const figure = compared(measured, netWeightFigures.t1SharePct, false)
  if (!q.allWeighed)
    return {
      ...figure,
      verdict: 'cannot-tell',
      because: `${belowT1} of ${q.n} packs weighed; the others were not seen`,
      settle: 'weigh every pack, or a sample by the reference test',
    }
  return {
    ...figure,
    verdict: measured <= netWeightFigures.t1SharePct ? 'pass' : 'fail',
    because: `${belowT1} of all ${q.n} packs (${short(measured)} %)`,
  }
}

function countTest(q: Q, belowT1: number): Said {
  if (q.batchSize === undefined) return unknownBatch
  if (q.batchSize < referencePlan.smallestBatch) {
    const allowed = (referencePlan.smallBatchDefectivePct / 100) * q.batchSize
    if (!q.allWeighed && belowT1 <= allowed)
      return {
        verdict: 'cannot-tell',
        because: `a batch of ${q.batchSize} is judged on every pack; ${q.n} were weighed`,
        settle: `weigh all ${q.batchSize} packs`,
      }
    return {
      ...compared(belowT1, allowed, false),
      verdict: belowT1 <= allowed ? 'pass' : 'fail',
      because: `${belowT1} of ${q.n} packs; allowed ${referencePlan.smallBatchDefectivePct} % of ${q.batchSize}`,
    }
  }
  const plan = q.destructive ? referencePlan.destructiveCount : referencePlan.count.find((p) => q.batchSize! <= p.upTo)!
  const figure = compared(belowT1, plan.accept, false)
  const counted = `${belowT1} of ${q.n} packs; the test accepts ${plan.accept} of ${plan.n}`
  if (q.destructive)
    return {
      ...figure,
      verdict: 'cannot-tell',
      because: `${counted}; but the plan for opened packs is from memory, not read in its source`,
      settle: 'read the destructive sampling plan in the schedule and enter it',
    }
  // More packs than asked for and still no more short ones is a harder test passed; fewer packs and already too many is failed.
  if (q.n >= plan.n && belowT1 <= plan.accept) return { ...figure, verdict: 'pass', because: counted }
  if (q.n <= plan.n && belowT1 > plan.accept) return { ...figure, verdict: 'fail', because: counted }
  return {
    ...figure,
    verdict: 'cannot-tell',
    because: counted,
    settle: `weigh ${plan.n} packs drawn at random`,
  }
}

function twice(q: Q, belowT2: number, tneG: number): Said {
  const limit = q.nominalG - 2 * tneG
  return {
    ...compared(q.lightestG, limit, true),
    verdict: belowT2 === 0 ? 'pass' : 'fail',
    because:
      belowT2 === 0
        ? `lightest of the ${q.n} packs weighed ${short(q.lightestG)} g; packs not weighed are not judged`
        : `${belowT2} of ${q.n} packs under ${short(limit)} g; the lightest ${short(q.lightestG)} g. Each such pack is taken out`,
  }
}

function scale(q: Q, tneG: number): Said {
  const limit = tneG * referencePlan.scaleShare
  if (q.scaleErrorG === undefined)
    return {
      limit,
      verdict: 'cannot-tell',
      because: 'the error of the scale is not given',
      settle: 'enter scaleErrorG',
    }
  return {
    ...compared(q.scaleErrorG, limit, false),
    verdict: q.scaleErrorG <= limit + 1e-9 ? 'pass' : 'fail',
    because: `± ${short(q.scaleErrorG)} g; allowed ${short(limit)} g`,
  }
}

/** Findings of the packers' rules and of the reference test for a sample of packs. */
export function judgeNetWeight(q: NetWeightQuestion): Finding[] {
  const found = q.jurisdictions.flatMap((place) => {
    if (place !== 'EU' && place !== 'GB') return []
    const rules = netWeightRules[place]
    const { tneG, belowT1, belowT2 } = q
    const means = [say(rules.average, average(q)), say(rules.testMean, meanTest(q))]
    if (tneG === undefined || belowT1 === undefined || belowT2 === undefined)
      return [
        ...means,
        say(rules.share, {
          verdict: 'cannot-tell',
          because: `no tolerable error is tabled for a nominal quantity of ${short(q.nominalG)} g (table from ${netWeightFigures.fromG} g)`,
          settle: 'ask the local weights and measures authority',
        }),
      ]
    return [
      ...means,
      say(rules.share, share(q, belowT1)),
      say(rules.testCount, countTest(q, belowT1)),
      say(rules.twice, twice(q, belowT2, tneG)),
      say(rules.scale, scale(q, tneG)),
    ]
  })
  const elsewhere = (['CA', 'AU-NZ'] as const)
    .filter((place) => q.jurisdictions.includes(place))
    .map((place) => {
      const { document, section } = unheldNetWeight[place].values[0]!.source
      return say(unheldNetWeight[place], {
        measured: q.averageG,
        verdict: 'cannot-tell',
        because: `mean of ${q.n} packs ${short(q.averageG)} g; the rules of the place were not read and are not held here`,
        settle: `judge by ${document}, ${section}`,
      })
    })
  return [...found, ...(q.jurisdictions.includes('US') ? unitedStates(q) : []), ...elsewhere]
}

const unread = 'but the plan and the table of Handbook 133 are from memory, not read in their source'
const readIt = 'judge by NIST Handbook 133, current edition'

/** Sampling plan of Handbook 133 as remembered: what it would say, never a verdict. */
function unitedStates(q: Q): Finding[] {
  const plan = usPlan.samples.find((p) => q.batchSize === undefined || q.batchSize <= p.upTo)!
  const asked = q.batchSize === undefined ? undefined : Math.min(plan.n, q.batchSize)
  const few = asked !== undefined && q.n < asked ? `; ${asked} packs are asked for` : ''
  const limit = q.nominalG - (q.allWeighed ? 0 : q.tOverRootN(usPlan.probability) * q.sdG)
  return [
    say(usNetWeight, {
      ...compared(q.averageG, limit, true),
      verdict: 'cannot-tell',
      because: `mean of ${q.n} packs ${short(q.averageG)} g; accepted from ${short(limit)} g${few}; ${unread}`,
      settle: readIt,
    }),
    ...(q.mavG === undefined || q.belowMav === undefined
      ? []
      : [
          say(usShort, {
            ...compared(q.lightestG, q.nominalG - q.mavG, true),
            verdict: 'cannot-tell' as const,
            because: `${q.belowMav} of ${q.n} packs under ${short(q.nominalG - q.mavG)} g, ${plan.allowed} allowed; the lightest ${short(q.lightestG)} g; ${unread}`,
            settle: readIt,
          }),
        ]),
  ]
}
