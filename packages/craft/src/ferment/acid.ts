import type { WorkingStep } from '../finding.ts'
import type { AcidInput, AcidOutput } from './acid-schema.ts'

/** Acid from a gram of sugar, mmol: two lactic acids a hexose (180.16 g/mol), four a disaccharide (342.30 g/mol); arithmetic. */
const LACTIC_MMOL_PER_G = { dextrose: 2000 / 180.16, sucrose: 4000 / 342.3, lactose: 4000 / 342.3 } as const
/** Gluconic acid from a gram of glucono-delta-lactone (178.14 g/mol), mmol. */
const GLUCONIC_MMOL_PER_G = 1000 / 178.14

/** Lean takes up this much acid, mmol/(kg · pH) between pH 5 and 6: the middle of 45 to 60, Puolanne & Kivikari 2000, from memory. */
const BUFFER_OF_LEAN = 55

/** pH lost per g of dextrose per kg, by the rules of thumb: 1 % gives a whole unit; 0.5 to 0.7 % brings fresh meat just under 5.0. */
const SLOWEST_PER_G_KG = 0.1
const USUAL_PER_G_KG = 0.8 / 6
/** Lean share, percent, the rules of thumb are taken to speak of: an ordinary batter. An assumption. */
const LEAN_OF_THE_RULES = 75
/** Sugar the lean brings itself, g/kg of lean, counted only where the most acid is asked for. From memory. */
const OWN_SUGAR_G_PER_KG = 1
/** Below this the product is sour rather than mild. Common practice, no source. */
const MILD_ABOVE = 4.8
/** 0.1 % of glucono-delta-lactone lowers the pH by about 0.1. */
const GDL_RULE_PER_G_KG = 0.1

/**
 * Where cultures stop whatever the sugar: published end pH of batters with sugar to spare run from 4.5 to 5.15 (the highest at 20 °C), most
 * near 4.65.
 */
const FLOOR = { low: 4.5, likely: 4.65, high: 5.15 } as const
/** Acid added as such stops where meat proteins and lactate buffer strongly; from memory. */
const ACIDULANT_FLOOR = 4.3

type Ends = AcidOutput['endPh']

/**
 * End pH of a fermentation from sugar, glucono-delta-lactone and lean share, as a band between published rules of thumb and stoichiometry over
 * the buffering of lean. Never a single figure, and never a reason to stop measuring.
 *
 * @param input pH of the batter, sugars and GDL in percent of it, lean share percent
 * @returns lowest, likely and highest end pH, whether the target is reached, and what each figure rests on
 */
export function acid(input: AcidInput): AcidOutput {
  const { startPh, leanPct, gdlPct = 0, targetPh = 5.3, culture = true } = input
  const sugars = { dextrose: input.dextrosePct ?? 0, sucrose: input.sucrosePct ?? 0, lactose: input.lactosePct ?? 0 }
  const buffer = (BUFFER_OF_LEAN * leanPct) / 100
  const ready = 10 * (sugars.dextrose + sugars.sucrose)
  const acidMmol = Object.entries(sugars).reduce(
    (s, [k, pct]) => s + 10 * pct * LACTIC_MMOL_PER_G[k as keyof typeof sugars],
    0,
  )
  const byRule = LEAN_OF_THE_RULES / leanPct
  const own = (OWN_SUGAR_G_PER_KG * LACTIC_MMOL_PER_G.dextrose * leanPct) / 100
  const full = (acidMmol + own) / buffer
  // Lactose is slow and not every culture takes it: nothing of it counts where the least acid is asked for.
  const least = ready * Math.min(SLOWEST_PER_G_KG, SLOWEST_PER_G_KG * byRule)
  const usual = Math.min(acidMmol / buffer, Math.max(least, (ready + 5 * sugars.lactose) * USUAL_PER_G_KG * byRule))
  const gdl = 10 * gdlPct
  const byAcidulant = {
    low: Math.max(GDL_RULE_PER_G_KG, GLUCONIC_MMOL_PER_G / buffer) * gdl,
    likely: (gdl * (GDL_RULE_PER_G_KG + GLUCONIC_MMOL_PER_G / buffer)) / 2,
    high: Math.min(GDL_RULE_PER_G_KG, GLUCONIC_MMOL_PER_G / buffer) * gdl,
  }
  const end = (fall: number, floor: number, acidulant: number): number => {
    const afterGdl = Math.max(Math.min(startPh, ACIDULANT_FLOOR), startPh - acidulant)
    return Math.max(Math.min(afterGdl, floor), afterGdl - (culture ? fall : 0))
  }
  const endPh: Ends = {
    low: end(full, FLOOR.low, byAcidulant.low),
    likely: end(usual, FLOOR.likely, byAcidulant.likely),
    high: end(least, FLOOR.high, byAcidulant.high),
  }
  const reaches = endPh.high <= targetPh ? 'yes' : endPh.low > targetPh ? 'no' : 'not-sure'
  const unlimited = startPh - byAcidulant.likely - (culture ? usual : 0)
  return {
    endPh,
    targetPh,
    reaches,
    evidence,
    warnings: warningsOf(input, endPh, reaches, { targetPh, unlimited, sugar: acidMmol > 0 }),
    working: workingOf({ startPh, acidMmol, buffer, full, usual, least, gdl: byAcidulant.likely, endPh }),
  }
}

function warningsOf(
  { startPh, gdlPct = 0, leanPct, culture = true, lactosePct = 0 }: AcidInput,
  endPh: Ends,
  reaches: AcidOutput['reaches'],
  { targetPh, unlimited, sugar }: { targetPh: number; unlimited: number; sugar: boolean },
): string[] {
  return [
    'a band from rules of thumb and stoichiometry: culture, temperature and salt decide the rest, so the pH is measured on every batch',
    ...(reaches === 'no'
      ? [`too little acid: even at its lowest, ${endPh.low.toFixed(2)}, it stays above ${targetPh}`]
      : []),
    ...(reaches === 'not-sure'
      ? [`cannot be counted on to reach ${targetPh}: it may stop as high as ${endPh.high.toFixed(2)}`]
      : []),
    ...(sugar && culture && startPh > FLOOR.likely && unlimited < FLOOR.low
      ? [
          `more sugar than cultures turn to acid: it overshoots to about ${FLOOR.likely} (sour, crumbly) and leaves sugar over`,
        ]
      : endPh.likely < MILD_ABOVE && startPh > MILD_ABOVE
        ? ['overshoots what mild sausage is made at: sour, with an early loss of water']
        : []),
    ...(gdlPct > 0.8
      ? [`${gdlPct} % glucono-delta-lactone tastes bitter and sour: near 1 % is the most that is used`]
      : []),
    ...(!culture && sugar
      ? ['without a culture nothing of the sugar is counted: whatever grows decides, and may not be lactic']
      : []),
    ...(lactosePct > 0
      ? ['lactose is slow, and some cultures leave it: it counts in full only for the lowest pH']
      : []),
    ...(leanPct < 30 ? [`at ${leanPct} % lean the rules of thumb say little`] : []),
  ]
}

type Steps = {
  startPh: number
  acidMmol: number
  buffer: number
  full: number
  usual: number
  least: number
  gdl: number
  endPh: Ends
}

const workingOf = (w: Steps): WorkingStep[] => [
  { step: 'pH of the batter', expression: 'as given', value: w.startPh, unit: '' },
  {
    step: 'lactic acid if all sugar is turned',
    expression: '11.10 mmol/g dextrose, 11.69 mmol/g sucrose or lactose',
    value: w.acidMmol,
    unit: 'mmol/kg',
  },
  {
    step: 'buffering of the batter',
    expression: `${BUFFER_OF_LEAN} × lean share`,
    value: w.buffer,
    unit: 'mmol/(kg·pH)',
  },
  {
    step: 'largest fall by sugar',
    expression: '(acid + 1 g/kg of the lean’s own sugar) / buffering',
    value: w.full,
    unit: 'pH',
  },
  { step: 'usual fall by sugar', expression: '0.13 pH per g/kg at 75 % lean, by lean', value: w.usual, unit: 'pH' },
  { step: 'least fall by sugar', expression: '0.10 pH per g/kg', value: w.least, unit: 'pH' },
  {
    step: 'fall by glucono-delta-lactone',
    expression: 'between 0.10 pH per g/kg and 5.61 mmol/g over the buffering',
    value: w.gdl,
    unit: 'pH',
  },
  { step: 'lowest end', expression: `largest fall, not under ${FLOOR.low} by culture`, value: w.endPh.low, unit: '' },
  {
    step: 'likely end',
    expression: `usual fall, not under ${FLOOR.likely} by culture`,
    value: w.endPh.likely,
    unit: '',
  },
  { step: 'highest end', expression: `least fall, not under ${FLOOR.high} by culture`, value: w.endPh.high, unit: '' },
]

const evidence: AcidOutput['evidence'] = [
  {
    says: '1 % sugar lowers the pH by about one unit',
    source: 'Toldrá, Dry-Cured Meat Products, p. 93',
    mark: 'quoted',
  },
  {
    says: '0.5 to 0.7 % sugar brings the pH just under 5.0',
    source: 'trade handbook of sausage fermentation',
    mark: 'quoted',
  },
  {
    says: '0.1 % glucono-delta-lactone lowers the pH by about 0.1',
    source: 'meatpoultry.com article 22081',
    mark: 'quoted',
  },
  {
    says: 'lean buffers 45 to 60 mmol/(kg·pH) between pH 5 and 6',
    source: 'Puolanne & Kivikari 2000, Meat Sci. 56:7',
    mark: 'from-memory',
  },
  {
    says: 'end pH of batters rich in sugar: 4.6; 4.77 at 30 °C and 5.15 at 20 °C; 4.62 to 4.76; 4.65; 4.82',
    source: 'studies of summer sausage and dry sausage, listed in docs/method/ferment.md',
    mark: 'quoted',
  },
]
