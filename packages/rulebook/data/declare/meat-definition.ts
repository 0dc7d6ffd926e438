import type { MeatDefinition } from '@forcemeat/craft/declare/meat-content'
import type { Source } from '@forcemeat/craft/source'
import type { Rule } from '../../src/rule.ts'

export const meatDefinition: MeatDefinition = {
  groups: [
    { name: 'pork', species: ['pork'], fatPct: 30, collagenInProteinPct: 25 },
    {
      name: 'other mammals',
      species: ['beef', 'veal', 'lamb', 'goat', 'venison', 'wild-boar', 'horse', 'other-mammal'],
      fatPct: 25,
      collagenInProteinPct: 25,
    },
    {
      name: 'birds and rabbits',
      species: ['chicken', 'turkey', 'duck', 'rabbit', 'other-bird'],
      fatPct: 15,
      collagenInProteinPct: 10,
    },
  ],
  connectivePerCollagen: 37 / 8,
}

const source: Source = {
  document: 'Regulation (EU) 1169/2011, Annex VII, part B, point 17',
  section: 'limits of fat and of collagen in meat protein; text of Directive 2001/101/EC as amended',
  edition: 'read in a reproduction of the table; conversion 37/8 from the Irish industry guide on meat content',
  mark: 'quoted',
}

/** The limits as they stand on the Rules page. */
export const meatDefinitionRules: readonly Rule[] = ['EU', 'GB'].flatMap((jurisdiction) =>
  meatDefinition.groups.map((g) => ({
    id: `${jurisdiction.toLowerCase()}.meat-definition.${g.name.replaceAll(' ', '-')}`,
    title: `What counts as meat: ${g.name}`,
    jurisdiction,
    topic: 'label' as const,
    scope: `Fat over ${g.fatPct} % of the meat, or collagen over ${g.collagenInProteinPct} % of its protein, is taken out of the declared meat and named on its own.`,
    unit: '%',
    weight: 'advice' as const,
    values: [{ max: g.fatPct, source }],
  })),
)
