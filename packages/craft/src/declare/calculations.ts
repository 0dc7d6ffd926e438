import { defineCalculation } from '../calculation.ts'
import { gs1, gs1Input, gs1Output } from './gs1.ts'
import { netWeight } from './net-weight.ts'
import { netWeightInput, netWeightOutput } from './net-weight-schema.ts'
import { nutrition } from './nutrition.ts'
import { nutritionInput, nutritionOutput } from './nutrition-schema.ts'
import { allergensInput, allergensOutput, declareAllergens } from './allergens.ts'
import { ingredients } from './ingredients.ts'
import { ingredientsInput, ingredientsOutput } from './ingredients-schema.ts'
import { meatAnalysis, meatAnalysisInput, meatAnalysisOutput } from './meat-analysis.ts'
import { nameCalculations } from './name-calculations.ts'
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
      'Trade item number, lot, dates, net weight and price as a GS1 element string, with the check digit verified or completed; and thirteen digits with price or weight for use in a shop.',
    input: gs1Input,
    output: gs1Output,
    sources: [
      {
        document: 'GS1 General Specifications',
        section: 'application identifiers 01, 02, 10, 11, 13, 15, 16, 17, 21, 37, 310n, 320n, 392n; check digit',
        edition: 'as published on gs1.org',
        url: 'https://www.gs1.org/standards/barcodes/application-identifiers',
        mark: 'seen',
      },
    ],
    example: { gtin: '96291041500216', netKg: 1.25, bestBefore: '2025-12-31', lot: 'L25-0317' },
    compute: gs1,
  }),
  defineCalculation({
    name: 'declare.net-weight',
    title: 'Net weight of packs by the average system',
    summary:
      "Mean, spread and short packs of a sample, held against the three packers' rules and the reference test, with the least target fill the spread allows.",
    input: netWeightInput,
    output: netWeightOutput,
    sources: [
      {
        document: 'The Weights and Measures (Packaged Goods) Regulations 2006, SI 2006/659',
        section: 'Schedule 2, paragraphs 3 and 4',
        edition: 'in force from 6 April 2006',
        url: 'https://www.legislation.gov.uk/uksi/2006/659/schedule/2',
        mark: 'seen',
      },
      {
        document: 'Directive 76/211/EEC, Annex I, 2.4',
        section: 'tolerable negative errors',
        edition: 'read in reproductions of the table',
        mark: 'quoted',
      },
    ],
    example: {
      nominalG: 500,
      weightsG: [503, 498, 501, 505, 499, 502, 500, 504, 497, 501],
      batchSize: 10,
      scaleErrorG: 1,
    },
    compute: netWeight,
  }),
  defineCalculation({
    name: 'declare.nutrition',
    title: 'Nutrition table',
    summary:
      'The table of the US, the EU or Great Britain from what went into the bowl, with water and fat lost apart, or from an analysis: unrounded, rounded by the place, each value with its source; what is not known is named, never zero.',
    input: nutritionInput,
    output: nutritionOutput,
    sources: [
      {
        document: 'Regulation (EU) 1169/2011, Annexes I, XIV and XV',
        section: 'definitions, energy factors, order; rounding by the Commission guidance of December 2012, section 6',
        edition: 'read in consolidated copies',
        mark: 'quoted',
      },
      {
        document: 'FDA, Food Labeling Guide, appendix H',
        section: 'rounding of 21 CFR 101.9(c)',
        edition: 'October 2009',
        mark: 'seen',
      },
    ],
    example: {
      jurisdiction: 'EU',
      parts: [
        { kg: 80, material: 'pork-shoulder-trim' },
        { kg: 20, material: 'pork-back-fat' },
        { kg: 1.8, material: 'salt' },
        { kg: 5, material: 'water' },
      ],
    },
    compute: nutrition,
  }),
  defineCalculation({
    name: 'declare.ingredients',
    title: 'List of ingredients',
    summary:
      'The list for the label of a place from what went into the bowl: descending by weight, water by the finished product where the place asks for it, cures as their constituents, compound ingredients with their own list, additives as the place names them, allergens set off.',
    input: ingredientsInput,
    output: ingredientsOutput,
    sources: [
      {
        document: 'Regulation (EU) 1169/2011, Articles 18 and 21, Annex VII',
        section: 'order, water, groups, additives, compound ingredients, emphasis',
        edition: 'read in a university page on the weight rules and in consolidated copies',
        mark: 'quoted',
      },
      {
        document: '21 CFR 101.4(a)(2)',
        section: 'ingredients of 2 percent or less',
        edition: 'read in a quotation',
        mark: 'quoted',
      },
    ],
    example: {
      jurisdiction: 'EU',
      items: [
        { kg: 80, material: 'pork-shoulder-trim', quidPct: 75 },
        { kg: 20, material: 'pork-back-fat' },
        { kg: 2, material: 'curing-salt-0.6-nitrite' },
        { kg: 0.3, material: 'black-pepper' },
        { kg: 0.2, material: 'mustard-seed' },
        { kg: 5, material: 'ice' },
      ],
      finishedKg: 98,
      productClass: 'meat-product',
    },
    compute: ingredients,
  }),
  defineCalculation({
    name: 'declare.allergens',
    title: 'Allergens to declare',
    summary:
      'What the ingredients and everything in them carry, by the lists of the US, the EU, Great Britain, Canada, Australia and New Zealand, with cross-contact apart; an ingredient without an allergen statement is named.',
    input: allergensInput,
    output: allergensOutput,
    sources: [
      {
        document: 'Regulation (EU) 1169/2011, Annex II',
        section: 'fourteen groups',
        edition: 'read in reproductions',
        mark: 'quoted',
      },
      {
        document: 'Health Canada, Allergens and gluten sources labelling',
        section: 'priority allergens, gluten sources, sulphites',
        edition: 'as published on canada.ca',
        mark: 'seen',
      },
      {
        document: '21 USC 321(qq), as amended by the FASTER Act of 2021',
        section: 'nine major food allergens',
        edition: 'read in authority summaries',
        mark: 'quoted',
      },
    ],
    example: {
      items: [
        { kg: 10, material: 'pork-shoulder-trim' },
        { kg: 0.1, material: 'mustard-seed' },
        {
          kg: 0.5,
          name: 'seasoning',
          parts: [
            { name: 'salt', allergens: [] },
            { name: 'celery', allergens: ['celery'] },
          ],
        },
      ],
      crossContact: [{ allergen: 'milk', because: 'cheese sausage is filled on the same line' }],
    },
    compute: declareAllergens,
  }),
  defineCalculation({
    name: 'declare.meat-analysis',
    title: 'Apparent meat content from an analysis',
    summary:
      'Fat-free meat from the nitrogen that is of meat, and with the fat the meat a product appears to hold, by published nitrogen factors.',
    input: meatAnalysisInput,
    output: meatAnalysisOutput,
    sources: [
      {
        document: 'Analytical Methods Committee, Analyst 1991, 116, 761 and 1993, 118, 1217',
        section: 'nitrogen factors of pork and beef',
        edition: '1991, 1993',
        mark: 'seen',
      },
    ],
    example: { meat: 'pork', nitrogenPct: 1.95, fatPct: 20 },
    compute: meatAnalysis,
  }),
  ...nameCalculations,
]
