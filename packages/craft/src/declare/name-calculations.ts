import { defineCalculation } from '../calculation.ts'
import { dates, datesInput, datesOutput } from './dates.ts'
import { nameInput, nameOutput, productName } from './product-name.ts'
import { qualifying, qualifyingInput, qualifyingOutput } from './qualifying.ts'

/** What a product is called, with which words, and until when it keeps. */
export const nameCalculations = [
  defineCalculation({
    name: 'declare.name',
    title: 'Reserved names the composition allows',
    summary:
      'Names of sausage and mince that a law of the place reserves, each held against its own rules of composition; what else a standard asks for is not judged.',
    input: nameInput,
    output: nameOutput,
    sources: [
      {
        document: '9 CFR 319; SI 2014/3001, Schedule 1; Regulation (EU) 1169/2011, Annex VI part B',
        section: 'standards of composition, as the rulebook holds them',
        edition: 'see each finding',
        mark: 'quoted',
      },
    ],
    example: {
      kind: 'fresh',
      smoked: false,
      cured: false,
      species: ['pork'],
      measures: { fatPct: 28, formulaWaterPct: 3, declaredMeatPct: 85, meatPct: 90 },
      on: '2026-01-01',
    },
    compute: productName,
  }),
  defineCalculation({
    name: 'declare.qualifying-words',
    title: 'Words that qualify a name',
    summary:
      'Smoked, cooked, cured, with added water, formed, defrosted, mechanically separated, sulphites, sweeteners, the casing: for a place, each word due, not due or not to be told, where it stands on the label, and what has to stand beside the name.',
    input: qualifyingInput,
    output: qualifyingOutput,
    sources: [
      {
        document:
          'Regulation (EU) 1169/2011, Annexes III, VI and VII; 9 CFR 317 and 319; Food and Drug Regulations (Canada); Food Standards Code, Standard 2.2.1',
        section: 'words that go with a name, as the rulebook holds them',
        edition: 'see each finding',
        mark: 'quoted',
      },
    ],
    example: {
      place: 'US',
      name: 'Pork sausage',
      facts: { smoked: true, smokeFlavoured: false, cooked: true, offal: false, mechanicallySeparated: false },
    },
    compute: qualifying,
  }),
  defineCalculation({
    name: 'declare.dates',
    title: 'Date and storage line',
    summary:
      "Use-by or best-before date from the maker's own validated shelf life, storage line, date of freezing, and the handling text a place prescribes for what is not ready to eat.",
    input: datesInput,
    output: datesOutput,
    sources: [
      {
        document: 'Regulation (EU) 1169/2011, Article 24, Annex III point 6, Annex X',
        section: 'use by, best before, date of freezing',
        edition: 'read in quotations',
        mark: 'quoted',
      },
    ],
    example: {
      jurisdiction: 'EU',
      packedOn: '2026-01-12',
      shelfLifeDays: 9,
      validation: 'storage trial of the kitchen, six batches',
      storage: 'chilled',
      storageC: 4,
      highlyPerishable: true,
      productClass: 'meat-preparation',
      readyToEat: false,
    },
    compute: dates,
  }),
]
