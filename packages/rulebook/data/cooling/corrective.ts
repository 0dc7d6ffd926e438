import type { Source } from '@forcemeat/craft/source'
import type { Corrective } from '../../src/corrective/corrective.ts'
import { stabilizationSource } from './options.ts'

const guideline: Source = {
  document: 'USDA FSIS, Stabilization Guideline for Meat and Poultry Products (Revised Appendix B), FSIS-GD-2021-13',
  section: 'cooling deviations; not read, only its title page was seen',
  edition: 'December 2021',
  url: 'https://www.fsis.usda.gov/guidelines/2017-0008',
  mark: 'from-memory',
}
const cooled = ['us.fsis.stabilization', 'us.fsis.cooling.', 'us.food-code.cooling', 'ca.cfia.cooling.']

/** What is open to a maker whose product cooled too slowly. */
export const coolingCorrectives: readonly Corrective[] = [
  {
    id: 'corrective.cooling.hold',
    title: 'Hold all of the batch, cold, and keep it apart',
    text: 'Nothing of the batch goes out until a qualified person has decided. What did not cool by a published option has to be shown to be safe, or does not leave as food.',
    after: cooled,
    source: {
      document: '9 CFR 417.3',
      section: 'corrective actions',
      edition: 'not read here; common practice in its words',
      mark: 'common-practice',
    },
  },
  {
    id: 'corrective.cooling.standard',
    title: 'Judge the deviation by the performance standard, not by the option missed',
    text: 'The options serve one standard: no multiplication of C. botulinum and at most 1-log growth of C. perfringens. A process authority can show from the whole log, with a model validated for the product (its salt, nitrite and pH), whether it was kept. The estimate on these pages is for uncured beef: it can support that decision and never makes it.',
    after: cooled,
    source: stabilizationSource,
  },
  {
    id: 'corrective.cooling.small-growth',
    title: 'Predicted growth within the standard: support for release by a process authority',
    text: 'Where a validated model gives at most 1-log of C. perfringens and none of C. botulinum, the written support and the log go into the record with the decision and who took it.',
    after: cooled,
    source: guideline,
  },
  {
    id: 'corrective.cooling.large-growth',
    title: 'Predicted growth above the standard: test, recook where that can make it safe, or destroy',
    text: 'A recook kills cells and not every toxin that was made. Whether sampling and testing, a recook with a raised target, or destruction is open depends on how far and how long; a process authority says which.',
    after: cooled,
    source: guideline,
  },
]
