import { defineCalculation } from '../calculation.ts'
import { gs1, gs1Input, gs1Output } from './gs1.ts'
import { meatContent, meatContentInput, meatContentOutput } from './meat-content.ts'

export const declareCalculations = [
  defineCalculation({
    name: 'declare.meat-content',
    title: 'Meat content to declare',
    summary:
      'Declared meat of a product with excess fat and excess connective tissue taken out by species, on the mix or on the finished weight of a product that loses weight.',
    input: meatContentInput,
    output: meatContentOutput,
    sources: [
      {
        document: 'Regulation (EU) 1169/2011, Annex VII, part B, point 17',
        section: 'definition of meat; limits of fat and connective tissue',
        edition: 'read in a reproduction of the table',
        mark: 'quoted',
      },
      {
        document: 'Food Standards Agency, Labelling and composition of meat products: guidance notes',
        section: 'calculation annex, p. 61; its first two steps reconstructed',
        edition: 'September 2003',
        mark: 'quoted',
      },
    ],
    example: {
      parts: [
        { kg: 50, species: 'pork', fatPct: 20, proteinPct: 17, collagenPct: 2.5 },
        { kg: 20, species: 'pork', fatPct: 50, proteinPct: 10, collagenPct: 2.2 },
      ],
      totalKg: 100,
    },
    compute: meatContent,
  }),
  defineCalculation({
    name: 'declare.gs1',
    title: 'Bar code data for a pack',
    summary:
      'Trade item number, lot, date and net weight as a GS1 element string, with the check digit verified or completed.',
    input: gs1Input,
    output: gs1Output,
    sources: [
      {
        document: 'GS1 General Specifications',
        section: 'application identifiers 01, 10, 15, 17, 310n; check digit',
        edition: 'as published on gs1.org',
        url: 'https://www.gs1.org/standards/barcodes/application-identifiers',
        mark: 'seen',
      },
    ],
    example: { gtin: '96291041500216', netKg: 1.25, bestBefore: '2025-12-31', lot: 'L25-0317' },
    compute: gs1,
  }),
]
