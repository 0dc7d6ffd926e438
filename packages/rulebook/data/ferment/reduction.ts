import type { Source } from '@forcemeat/craft/source'
import type { Rule } from '../../src/rule.ts'

const draft: Source = {
  document: 'USDA FSIS, draft compliance guidelines for ready-to-eat meat and poultry products',
  section: 'with the proposed rule of 66 FR 12590: fermented products that contain beef; lethality of Salmonella',
  edition: '2001, draft, as quoted',
  mark: 'quoted',
}
const annexK: Source = {
  document: 'CFIA, Meat hygiene manual of procedures, chapter 4, Annex K',
  section: 'control of E. coli O157:H7 in fermented sausage with beef',
  edition: 'archived, as quoted',
  url: 'https://inspection.canada.ca',
  mark: 'quoted',
}

const rule = (over: Pick<Rule, 'id' | 'title' | 'jurisdiction' | 'scope' | 'weight'>, source: Source): Rule => ({
  topic: 'fermentation',
  unit: '',
  values: [{ source }],
  ...over,
})

const withBeef = 'Fermented or dried sausage that holds beef or veal and is eaten without a full cook.'

/** What has to be shown to die in a fermented or dried product, by place. */
export const reductionRules = {
  US: rule(
    {
      id: 'us.ferment.e-coli',
      title: 'Five tenfolds of E. coli O157:H7 where there is beef',
      jurisdiction: 'US',
      scope: withBeef,
      weight: 'limit',
    },
    draft,
  ),
  CA: rule(
    {
      id: 'ca.ferment.e-coli',
      title: 'Five tenfolds of E. coli O157:H7 where there is beef',
      jurisdiction: 'CA',
      scope: withBeef,
      weight: 'limit',
    },
    annexK,
  ),
  salmonella: rule(
    {
      id: 'us.ferment.salmonella',
      title: 'Reduction of Salmonella in what is eaten as sold',
      jurisdiction: 'US',
      scope:
        'Fermented or dried product eaten as sold: 6.5 tenfolds, 7 with poultry, or another reduction the hazard plan supports.',
      weight: 'advice',
    },
    draft,
  ),
} as const satisfies Record<string, Rule>
