import { defineCalculation } from '../calculation.ts'
import { waterActivity, waterActivityInput, waterActivityOutput } from './water-activity.ts'

export const dryCalculations = [
  defineCalculation({
    name: 'dry.water-activity',
    title: 'Water activity from composition',
    summary:
      'Water activity and water-phase salt of a product at 25 °C from its water, salt and sugars. A measured value, where given, wins over the computed one.',
    input: waterActivityInput,
    output: waterActivityOutput,
    sources: [
      {
        document: 'Pitzer & Mayorga, Thermodynamics of electrolytes II',
        section: 'Table I, NaCl',
        edition: 'J. Phys. Chem. 77 (1973) 2300',
        mark: 'from-memory',
      },
      {
        document: 'Robinson & Stokes, Electrolyte Solutions',
        section: 'osmotic coefficients of NaCl at 25 °C',
        edition: '2nd edition, 1965',
        mark: 'quoted',
      },
      {
        document:
          'Norrish, An equation for the activity coefficients and equilibrium relative humidities of water in confectionery syrups',
        section: 'equation and constants',
        edition: 'J. Food Technol. 1 (1966) 25',
        mark: 'from-memory',
      },
    ],
    example: { waterPct: 50, saltPct: 3.2, proteinPct: 22, fatPct: 22, solutes: [{ name: 'dextrose', pct: 0.4 }] },
    compute: waterActivity,
  }),
]
