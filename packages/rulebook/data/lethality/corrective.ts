import type { Source } from '@forcemeat/craft/source'
import type { Corrective } from '../../src/corrective/corrective.ts'

const guideline = (section: string): Source => ({
  document: 'USDA FSIS, Cooking Guideline for Meat and Poultry Products (Revised Appendix A), FSIS-GD-2021-14',
  section,
  edition: 'December 2021',
  url: 'https://www.fsis.usda.gov/guidelines/2017-0007',
  mark: 'seen',
})
const tables = [
  'us.fsis.lethality.meat',
  'us.fsis.lethality.chicken',
  'us.fsis.lethality.turkey',
  'us.fsis.lethality.other-poultry',
]
const comeUp = ['us.fsis.lethality.come-up']

/** What is open to a maker whose cook fell short or came up too slowly. */
export const lethalityCorrectives: readonly Corrective[] = [
  {
    id: 'corrective.lethality.cook-on',
    title: 'Still hot: cook on to a row of the table',
    text: 'While the product is in the house it can be held until a row is met. The time counts from when the coldest spot is there.',
    after: tables,
    source: { document: 'Common practice', section: 'of the trade', edition: 'no document', mark: 'common-practice' },
  },
  {
    id: 'corrective.lethality.other-row',
    title: 'Look first at the other rows of the table',
    text: 'An end point that was missed may still have been long enough at a lower temperature: total the time at or above each row. A row that is met is enough. The findings here try every row already.',
    after: tables,
    source: guideline('cooking deviations, p. 66-68'),
  },
  {
    id: 'corrective.lethality.integrated',
    title: 'Then the lethality summed over the whole log, by a process authority',
    text: 'Where no row is met, a process authority may show the reduction by integrating the log with D and z that fit the product. The sums on these pages show how that goes and decide nothing.',
    after: tables,
    source: guideline('cooking deviations, p. 66-79'),
  },
  {
    id: 'corrective.lethality.recook',
    title: 'Cook again, with a full lethality',
    text: 'A second cook that reaches the full target starts the come-up clock anew; one that fails does not. Where growth in between was predicted, the target is raised by as many logs as grew.',
    after: [...tables, ...comeUp],
    source: guideline('p. 25, 71'),
  },
  {
    id: 'corrective.come-up.growth',
    title: 'Long come-up: predict what grew',
    text: 'With a log read at least every 30 minutes, model the vegetative pathogens and S. aureus. Up to 1-log of the first and under 3-log of S. aureus can stand; both must. Above 1-log: cook again with the target raised by the growth, or test. S. aureus of 3-log or more: test for enterotoxins A to E, which a cook does not destroy.',
    after: comeUp,
    source: guideline('come-up deviations, p. 69-79'),
  },
  {
    id: 'corrective.lethality.sampling',
    title: 'Testing the lot',
    text: '10 to 15 units of the lot. Composites of up to 3 units of 25 g for Salmonella and O157, up to 5 for Listeria; never composites for enterotoxins.',
    after: [...tables, ...comeUp],
    source: guideline('sampling after a deviation, p. 66-79'),
  },
]
