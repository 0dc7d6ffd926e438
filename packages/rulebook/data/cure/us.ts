import type { Rule } from '../../src/rule.ts'
import { cfr9, cfr9Chart, handbook } from '../sources.ts'

const us = { jurisdiction: 'US', topic: 'cure', unit: 'mg/kg', weight: 'limit' } as const
const nitrite = {
  ...us,
  measure: 'nitriteSaltsPpm',
  orMeasure: 'nitritePpm',
  basis: 'nitrite salts as weighed, on the green weight of the meat block',
} as const
const nitrate = {
  ...us,
  measure: 'nitrateSaltsPpm',
  orMeasure: 'nitratePpm',
  basis: 'nitrate salts as weighed, on the green weight of the meat block',
} as const
/** Bacon has potassium figures of its own in the text, so there the sodium equivalent counts. */
const baconNitrite = {
  ...us,
  measure: 'nitritePpm',
  basis: 'as sodium nitrite, on the skin-free green weight',
} as const

const nitriteRow = cfr9Chart('Curing agents, sodium or potassium nitrite')
const nitrateRow = cfr9Chart('Curing agents, sodium or potassium nitrate')
const acceleratorRow = cfr9Chart('Curing accelerators')
const pickleNote =
  'The chart counts 100 gal of pickle; the ppm follow if they weigh 1,000 lb. The actual weight of the whole pickle is what is reckoned with here.'

/** USDA limits of curing agents and accelerators, products other than bacon; exact values of oz/100 lb (1 oz/100 lb = 625 ppm). */
export const usCureRules: readonly Rule[] = [
  {
    ...nitrite,
    id: 'us.424.21.nitrite.comminuted',
    title: 'Ingoing nitrite, comminuted products',
    scope: 'chopped meat, meat by-product or poultry product',
    when: { cured: [true], route: ['comminuted'], bacon: [false] },
    values: [{ max: 156.25, source: nitriteRow }],
    note: '1/4 oz to 100 lb, 156.25 ppm; the trade prints it cut to 156. One weight limit serves the sodium and the potassium salt: the salts are counted as weighed.',
  },
  {
    ...nitrite,
    id: 'us.424.21.nitrite.pumped',
    title: 'Ingoing nitrite, pumped or massaged products',
    scope: 'cured meat and poultry other than bacon, pumped or massaged',
    when: { cured: [true], route: ['pumped'], bacon: [false] },
    values: [{ max: 200, source: nitriteRow }],
    note: `2 lb to 100 gal pickle at 10 % pump, 200 ppm. ${pickleNote}`,
  },
  {
    ...nitrite,
    id: 'us.424.21.nitrite.immersed',
    title: 'Ingoing nitrite, immersion-cured products',
    scope: 'cured meat and poultry other than bacon, immersed',
    when: { cured: [true], route: ['immersed'], bacon: [false] },
    values: [{ max: 200, source: nitriteRow }],
    note: `2 lb to 100 gal pickle, 200 ppm. ${pickleNote}`,
  },
  {
    ...nitrite,
    id: 'us.424.21.nitrite.dry-rubbed',
    title: 'Ingoing nitrite, dry-cured products',
    scope: 'cured meat and poultry other than bacon, dry-cured',
    when: { cured: [true], route: ['dry-rubbed'], bacon: [false] },
    values: [{ max: 625, source: nitriteRow }],
    note: '1 oz to 100 lb, 625 ppm.',
  },
  {
    ...nitrate,
    id: 'us.424.21.nitrate.comminuted',
    title: 'Ingoing nitrate, comminuted products',
    scope: 'chopped meat or poultry',
    when: { nitrateAdded: [true], route: ['comminuted'], bacon: [false] },
    values: [{ max: 1718.75, source: nitrateRow }],
    note: '2 3/4 oz to 100 lb, 1718.75 ppm; the trade prints it cut to 1718.',
  },
  {
    ...nitrate,
    id: 'us.424.21.nitrate.pickle',
    title: 'Ingoing nitrate, pickle-cured products',
    scope: 'cured meat other than bacon, pumped or immersed',
    when: { nitrateAdded: [true], route: ['pumped', 'immersed'], bacon: [false] },
    values: [{ max: 700, source: nitrateRow }],
    note: `7 lb to 100 gal pickle; the row names no pump level, and 700 ppm takes 10 %. ${pickleNote}`,
  },
  {
    ...nitrate,
    id: 'us.424.21.nitrate.dry-rubbed',
    title: 'Ingoing nitrate, dry-cured products',
    scope: 'meat or poultry other than bacon, dry-cured',
    when: { nitrateAdded: [true], route: ['dry-rubbed'], bacon: [false] },
    values: [{ max: 2187.5, source: nitrateRow }],
    note: '3 1/2 oz to 100 lb, 2187.5 ppm; the trade prints it cut to 2187.',
  },
  {
    ...us,
    id: 'us.424.21.nitrite.finished',
    title: 'Nitrite in the finished product',
    scope: 'every cured product other than bacon, nitrite and nitrate together',
    when: { cured: [true], bacon: [false] },
    measure: 'residualNitritePpm',
    orMeasure: 'residualNitriteBoundPpm',
    basis: 'as sodium nitrite, in the finished product',
    values: [{ max: 200, source: nitriteRow }],
    note: 'A further test, not leave to add 200 ppm to chopped meat. Where no analysis is there, the most that could be left is taken: all nitrite, and all nitrate turned to nitrite, on the finished weight.',
  },
  {
    ...us,
    id: 'us.424.21.infant',
    title: 'No nitrite or nitrate in food for infants',
    scope: 'baby, junior and toddler foods',
    when: { cured: [true], infantFood: [true] },
    finding: { verdict: 'fail', because: 'nitrite and nitrate may not be used in baby, junior or toddler foods' },
    values: [{ source: nitriteRow }],
  },
  {
    ...us,
    id: 'us.7620.nitrite.refrigerated',
    title: 'Least nitrite in a cured product sold refrigerated',
    scope: 'cured products labelled to be kept refrigerated; policy of the handbook, not text of the regulation',
    when: { cured: [true], bacon: [false] },
    measure: 'nitritePpm',
    basis: 'as sodium nitrite, on the green weight of the meat block',
    weight: 'advice',
    values: [{ min: 120, source: handbook('p. 12') }],
    note: 'For products made shelf stable no least figure is set; the same page finds 40 ppm useful.',
  },
  {
    ...us,
    id: 'us.424.21.accelerator.salts',
    title: 'Sodium ascorbate and sodium erythorbate',
    scope: 'cured products, as accelerator',
    when: { acceleratorAdded: [true], bacon: [false] },
    measure: 'acceleratorSaltsPpm',
    basis: 'on the green weight of the meat block',
    values: [{ max: 546.875, source: acceleratorRow }],
    note: '7/8 oz to 100 lb, or 87.5 oz to 100 gal pickle at 10 % pump: 546.875 ppm, printed as 547. A solution of at most 10 % may be put on the surface before packing.',
  },
  {
    ...us,
    id: 'us.424.21.accelerator.acids',
    title: 'Ascorbic acid and erythorbic acid',
    scope: 'cured products, as accelerator',
    when: { acceleratorAdded: [true], bacon: [false] },
    measure: 'acceleratorAcidsPpm',
    basis: 'on the green weight of the meat block',
    values: [{ max: 468.75, source: acceleratorRow }],
    note: '3/4 oz to 100 lb, or 75 oz to 100 gal pickle at 10 % pump: 468.75 ppm, printed as 469. Citric acid or sodium citrate may stand for up to half of the accelerator.',
  },
  {
    ...us,
    id: 'us.424.21.accelerator.needs-cure',
    title: 'Accelerators only with a curing agent',
    scope: 'ascorbate, erythorbate and their acids',
    when: { acceleratorAdded: [true], cured: [false] },
    finding: {
      verdict: 'fail',
      because: 'a curing accelerator is used and there is neither nitrite nor nitrate for it to act on',
    },
    values: [{ source: acceleratorRow }],
  },
  {
    ...us,
    id: 'us.424.21.gdl',
    title: 'Glucono-delta-lactone as accelerator',
    scope: 'cured, comminuted meat; Genoa salami may have twice as much',
    when: { cured: [true], gdlAdded: [true], route: ['comminuted'] },
    measure: 'gdlPct',
    unit: '%',
    basis: 'of the meat',
    values: [{ max: 0.5, source: acceleratorRow }],
    note: '8 oz to 100 lb (0.5 %); 16 oz to 100 lb (1 %) in Genoa salami. As a plain acidifier the chart asks for what is sufficient for purpose.',
  },
  {
    ...us,
    id: 'us.424.21.fumaric',
    title: 'Fumaric acid as accelerator',
    scope: 'cured, comminuted meat and poultry',
    when: { cured: [true], fumaricAdded: [true], route: ['comminuted'] },
    measure: 'fumaricAcidPct',
    unit: '%',
    basis: 'of the meat before processing',
    values: [{ max: 0.065, source: acceleratorRow }],
    note: 'The chart prints 0.065 % and 1 oz to 100 lb, which is 0.0625 %.',
  },
  ...baconRules(),
]

/** Bacon, 9 CFR 424.22(b): its own figures in place of the chart. The three pumped schemes are alternatives of one another. */
function baconRules(): Rule[] {
  const part = (letter: string) => cfr9(`424.22${letter}`)
  const pumped = {
    ...baconNitrite,
    step: 1,
    anyOf: 'us.424.22.bacon.pumped',
    when: { cured: [true], bacon: [true], route: ['pumped'] },
  }
  const whole =
    'Judged in whole ppm: the text prints whole figures and rounds its own potassium equivalents (148, 123, 49 to 99, 246).'
  return [
    {
      ...pumped,
      id: 'us.424.22.bacon.pumped',
      title: 'Nitrite in pumped or massaged bacon',
      scope: 'bacon, pumped or massaged: 120 ppm, no more and no less',
      values: [{ min: 120, max: 120, source: part('(b)(1)') }],
      note: `${whole} Skin-on bellies: on the skin-free green weight; skin is about a tenth.`,
    },
    {
      ...pumped,
      id: 'us.424.22.bacon.pumped.reduced',
      title: 'Nitrite in pumped bacon, 100 ppm scheme',
      scope: 'bacon, pumped or massaged, under the scheme of 100 ppm',
      when: { cured: [true], bacon: [true], route: ['pumped'], reducedNitriteScheme: [true] },
      values: [{ min: 100, max: 100, source: part('(b)(1)(ii)(A)') }],
      note: whole,
    },
    {
      ...pumped,
      id: 'us.424.22.bacon.pumped.culture',
      title: 'Nitrite in pumped bacon with culture and sugar',
      scope: 'bacon with at least 0.7 % sucrose or the like and a lactic culture: one set level within 40 to 80 ppm',
      when: { cured: [true], bacon: [true], route: ['pumped'], lacticCulture: [true] },
      values: [{ min: 40, max: 80, source: part('(b)(1)(ii)(B)') }],
      note: whole,
    },
    {
      ...us,
      id: 'us.424.22.bacon.pumped.accelerator',
      title: 'Ascorbate or erythorbate in pumped bacon',
      scope: 'bacon, pumped or massaged: 550 ppm of the sodium salt, and never without',
      when: { cured: [true], bacon: [true], route: ['pumped'] },
      measure: 'acceleratorSaltsPpm',
      basis: 'as anhydrous sodium salt, on the skin-free green weight',
      step: 1,
      values: [{ min: 550, max: 550, source: part('(b)(1)') }],
      note: 'Hydrated salt is adjusted to the same 550 ppm.',
    },
    {
      ...baconNitrite,
      id: 'us.424.22.bacon.immersed',
      title: 'Nitrite in immersion-cured bacon',
      scope: 'bacon, immersed',
      when: { cured: [true], bacon: [true], route: ['immersed'] },
      step: 1,
      values: [{ max: 120, source: part('(b)(2)') }],
      note: `Or 148 ppm potassium nitrite. ${whole}`,
    },
    {
      ...baconNitrite,
      id: 'us.424.22.bacon.dry-rubbed',
      title: 'Nitrite in dry-cured bacon',
      scope: 'bacon, dry-cured',
      when: { cured: [true], bacon: [true], route: ['dry-rubbed'] },
      step: 1,
      values: [{ max: 200, source: part('(b)(3)') }],
      note: `Or 246 ppm potassium nitrite. ${whole}`,
    },
    {
      ...us,
      id: 'us.424.21.nitrate.bacon',
      title: 'No nitrate in bacon',
      scope: 'bacon of every kind',
      when: { cured: [true], bacon: [true] },
      measure: 'nitratePpm',
      basis: 'as sodium nitrate, on the green weight',
      values: [{ max: 0, source: nitrateRow }],
      note: 'The row allows nitrate in cured meat products other than bacon.',
    },
  ]
}
