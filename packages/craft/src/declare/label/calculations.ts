import { defineCalculation } from '../../calculation.ts'
import { label } from './label.ts'
import { labelInput, labelOutput } from './schema.ts'

export const labelCalculations = [
  defineCalculation({
    name: 'declare.label',
    title: 'Content of a label',
    summary:
      'Name, list of ingredients, allergens, meat content, nutrition, weight, lot, date, storage, handling and bar code data of a pack for one place, with everything that stops its approval and what settles it.',
    input: labelInput,
    output: labelOutput,
    sources: [
      {
        document: 'Regulation (EU) 1169/2011, Article 9',
        section: 'mandatory particulars; each engine names the source of its own',
        edition: 'read in quotations',
        mark: 'quoted',
      },
    ],
    example: {
      place: 'EU',
      recipe: 'PORK-LINK',
      product: { name: 'Pork sausage', kind: 'fresh', smoked: false, readyToEat: false },
      items: [
        { kg: 9.5, material: 'pork-shoulder-trim' },
        { kg: 0.18, material: 'salt' },
        { kg: 0.03, material: 'white-pepper' },
        { kg: 0.3, material: 'ice' },
      ],
      packedOn: '2026-02-02',
      pack: { netG: 400, shelfLifeDays: 7, storage: 'chilled', storageC: 4, lotPattern: '{recipe}-{YY}{DDD}' },
    },
    compute: label,
  }),
]
