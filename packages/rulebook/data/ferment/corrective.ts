import type { Source } from '@forcemeat/craft/source'
import type { Corrective } from '../../src/corrective/corrective.ts'

const over = ['us.ferment.degree-hours', 'ca.ferment.degree-hours']
const amif: Source = {
  document:
    'American Meat Institute Foundation, Good manufacturing practices for fermented dry and semi-dry sausage products',
  section: 'degree-hours exceeded',
  edition: '1997; from memory',
  mark: 'from-memory',
}
const cfia: Source = {
  document: 'CFIA, Meat hygiene manual of procedures',
  section: 'chapter 4, 4.16, degree-hours exceeded',
  edition: 'archived, as quoted',
  url: 'https://inspection.canada.ca',
  mark: 'quoted',
}

/** What is open to a maker whose sausage took too long to sour. */
export const fermentCorrectives: readonly Corrective[] = [
  {
    id: 'corrective.ferment.hold',
    title: 'Hold all of the batch and keep it apart',
    text: 'Nothing of the batch goes out, and nothing of it becomes rework, until a qualified person has decided. Toxin of Staphylococcus aureus is not destroyed by a cook: heating the batch does not mend it.',
    after: [...over, 'record.ferment-ph'],
    source: {
      document: '9 CFR 417.3',
      section: 'corrective actions',
      edition: 'not read here; common practice in its words',
      mark: 'common-practice',
    },
  },
  {
    id: 'corrective.ferment.test',
    title: 'Test samples of the lot for staphylococcal enterotoxin and coagulase-positive staphylococci',
    text: 'A laboratory tests samples from the warmest places of the chamber. Enterotoxin found, the batch is no food. Counts fall while a sausage dries, so that a low count late says little: the toxin is what decides.',
    after: over,
    source: amif,
  },
  {
    id: 'corrective.ferment.tell',
    title: 'Tell the inspection service where its programme asks for it',
    text: 'In Canada the exceeding of degree-hours is notified; elsewhere by the programme of the place.',
    after: ['ca.ferment.degree-hours'],
    source: cfia,
  },
  {
    id: 'corrective.ferment.cause',
    title: 'Find why it stayed sweet before the next batch',
    text: 'Starter past its date or killed by salt and cure on a dry patch, no sugar it can use, meat or chamber colder than meant, a meter that reads high: each shows in the record.',
    after: [...over, 'record.ferment-ph'],
    source: {
      document: 'trade practice of fermentation',
      section: 'causes of a slow fall of pH',
      edition: 'none',
      mark: 'common-practice',
    },
  },
]
