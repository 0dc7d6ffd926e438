import type { Rule } from '../../src/rule.ts'
import { EVERYWHERE } from '../../src/rule.ts'
import { trade } from '../sources.ts'

const process = { jurisdiction: EVERYWHERE, topic: 'process', unit: '' } as const

const coldSmoke = {
  document: 'National Center for Home Food Preservation, literature review on curing and smoking',
  section: '3.1, cold smoking',
  edition: 'as published on nchfp.uga.edu',
  url: 'https://nchfp.uga.edu',
  mark: 'seen',
} as const

const comeUp = {
  document: 'FSIS Cooking Guideline for Meat and Poultry Products (Appendix A), FSIS-GD-2021-14',
  section: 'heating come-up time',
  edition: 'December 2021',
  mark: 'seen',
} as const

/** What the plan of a recipe says of its safety, wherever it is sold. */
export const recipeProcessRules: readonly Rule[] = [
  {
    ...process,
    id: 'process.cold-smoked-uncured',
    title: 'Cold smoke only on cured, salted or fermented meat',
    scope: 'smoked below 29 °C (85 °F) without nitrite or nitrate',
    when: { coldSmoked: [true], cured: [false] },
    weight: 'limit',
    finding: {
      verdict: 'fail',
      because:
        'cold smoking keeps the meat for hours at temperatures at which Clostridium botulinum and other pathogens grow, and there is neither nitrite nor nitrate in it',
      settle: 'a cure, or another process that a process authority has proved',
    },
    values: [{ source: coldSmoke }],
  },
  {
    ...process,
    id: 'process.smoked-uncured',
    title: 'Smoked without cure: not called safe',
    scope: 'smoked, no nitrite or nitrate',
    when: { smoked: [true], coldSmoked: [false], cured: [false] },
    weight: 'limit',
    finding: {
      verdict: 'cannot-tell',
      because:
        'smoked without nitrite or nitrate: whether it is safe turns on how fast it came through the warm zone and how hot it got, which the recipe does not show',
      settle: 'a cure; or a logged smoke and cook that comes up in time and meets a lethality table',
    },
    values: [{ source: comeUp }],
  },
  {
    ...process,
    id: 'process.long-warm-uncured',
    title: 'Long in the warm zone without cure: not called safe',
    scope: 'hours between 4 and 60 °C in its process, no nitrite or nitrate',
    when: { longWarm: [true], cured: [false] },
    weight: 'limit',
    finding: {
      verdict: 'fail',
      because: 'the process keeps uncured meat for hours in the zone where pathogens grow',
      settle: 'a cure and a controlled fermentation, or a faster process proved by a log',
    },
    values: [{ source: comeUp }],
  },
  {
    ...process,
    id: 'process.fermented-uncured',
    title: 'Fermented or dried without cure: not called safe',
    scope: 'fermented or dried sausage, no nitrite or nitrate',
    when: { kind: ['fermented', 'dried'], cured: [false] },
    weight: 'limit',
    finding: {
      verdict: 'cannot-tell',
      because:
        'a fermented or dried sausage without nitrite or nitrate has lost the hurdle that holds Clostridium botulinum and Salmonella back in its first days',
      settle: 'a cure, or a validated process for this very product on file',
    },
    values: [{ source: trade('nitrite as a hurdle in fermented sausage') }],
  },
  {
    ...process,
    id: 'process.dried-without-nitrate',
    title: 'Dry sausage without nitrate',
    scope: 'dried sausage, cured with nitrite alone',
    when: { kind: ['dried'], cured: [true], nitrateAdded: [false], processProof: [false] },
    weight: 'advice',
    finding: {
      verdict: 'cannot-tell',
      because:
        'nitrite is spent in the first weeks; long-dried sausage is usually given nitrate to replace it, or its process is proved without',
      settle:
        'nitrate within the limit of the place, or a proof of the process (validated fermentation, salt, water activity and time)',
    },
    values: [{ source: trade('nitrate in long-dried sausage') }],
  },
  {
    ...process,
    id: 'process.fried-nitrate',
    title: 'Nitrate in what will be fried',
    scope: 'nitrate in a product meant to be fried or grilled hard',
    when: { nitrateAdded: [true], toBeFried: [true] },
    weight: 'limit',
    finding: {
      verdict: 'fail',
      because:
        'nitrate keeps turning to nitrite, and nitrite in meat fried above 130 °C forms nitrosamines; nitrate has no place in a product to be fried',
      settle: 'nitrite alone at its own limit, with ascorbate or erythorbate',
    },
    values: [
      {
        source: {
          document: '9 CFR 424.21(c) and 424.22(b): no nitrate in bacon, and why',
          section: 'bacon',
          edition: 'eCFR copy, no earlier than 2018',
          mark: 'seen',
        },
      },
    ],
    note: 'The law says it of bacon; it is carried over to other products for the same reason.',
  },
  {
    ...process,
    id: 'process.raw-pork',
    title: 'Pork eaten raw or underdone: how was it treated?',
    scope: 'pork or wild boar in a product eaten without a full cook',
    when: { rawPork: [true], porkTreated: [false] },
    weight: 'limit',
    finding: {
      verdict: 'fail',
      because: 'the pork is eaten without a full cook and none of its lots has a treatment or proof against trichinae',
      settle:
        'frozen by a published schedule, from a certified herd, tested lots, or a published curing method: a document on each lot',
    },
    values: [
      {
        source: {
          document: '9 CFR 318.10 (former) and FSIS trichinae guideline',
          section: 'prescribed treatment of pork',
          edition: 'as carried over into guidance',
          mark: 'quoted',
        },
      },
    ],
  },
]
