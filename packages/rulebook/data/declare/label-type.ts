import type { LabelTypeRules } from '@forcemeat/craft/declare/label/type-size'
import type { Source } from '@forcemeat/craft/source'
import type { Rule } from '../../src/rule.ts'

const MM_PER_INCH = 25.4

/** Least height of letters and of the figures of the net quantity. Without the area of the pack the larger height holds. */
export const labelTypeFigures: LabelTypeRules = {
  EU: {
    xHeightMm: 1.2,
    small: { belowCm2: 80, xHeightMm: 0.9 },
    netFigures: [{ upToG: 50, mm: 2 }, { upToG: 200, mm: 3 }, { upToG: 1000, mm: 4 }, { mm: 6 }],
  },
  GB: {
    xHeightMm: 1.2,
    small: { belowCm2: 80, xHeightMm: 0.9 },
    netFigures: [{ upToG: 50, mm: 2 }, { upToG: 200, mm: 3 }, { upToG: 1000, mm: 4 }, { mm: 6 }],
  },
  US: {
    xHeightMm: MM_PER_INCH / 16,
    netByArea: [
      { upToCm2: 5 * (MM_PER_INCH / 10) ** 2, mm: MM_PER_INCH / 16 },
      { upToCm2: 25 * (MM_PER_INCH / 10) ** 2, mm: MM_PER_INCH / 8 },
      { upToCm2: 100 * (MM_PER_INCH / 10) ** 2, mm: (3 * MM_PER_INCH) / 16 },
      { mm: MM_PER_INCH / 4 },
    ],
  },
  CA: {
    xHeightMm: 1.6,
    netByArea: [
      { upToCm2: 32, mm: 1.6 },
      { upToCm2: 258, mm: 3.2 },
      { upToCm2: 645, mm: 6.4 },
      { upToCm2: 2580, mm: 9.5 },
      { mm: 12.7 },
    ],
  },
  // No least height of letters was found in the Code; that of the EU is held as good practice. The largest height of figures holds.
  'AU-NZ': { xHeightMm: 1.2, netFigures: [{ mm: 4.8 }] },
}

const rule = (id: string, jurisdiction: string, title: string, scope: string, source: Source): Rule => ({
  id,
  title,
  jurisdiction,
  topic: 'label',
  scope,
  unit: 'mm',
  weight: 'limit',
  values: [{ source }],
})

const letters: Source = {
  document: 'Regulation (EU) 1169/2011',
  section: 'Article 13(2) and (3), Annex IV',
  edition: 'figures read in an answer of the Czech food inspectorate (2022) and a Dutch guide to the regulation',
  url: 'https://www.foodnet.cz/cs/aktuality/5504-kontrola-dodrzovani-pozadavku-velikosti-pisma-dle-cl-13-narizeni-eu-c-1169-2011',
  mark: 'quoted',
}
const figuresOfNet: Source = {
  document: 'Directive 76/211/EEC',
  section: 'Annex I, 3.1: height of the figures of the nominal quantity',
  edition: 'read in a summary of the United States mission to the European Union (2017)',
  url: 'https://www.usda-eu.org/trade-with-the-eu/eu-import-rules/eu-labeling-requirements/weight-and-volume-indication/',
  mark: 'quoted',
}
const kept = (s: Source): Source => ({ ...s, section: `${s.section}, kept in Great Britain` })

const xHeightScope =
  'Every mandatory text of the label: height of the lower-case x at least 1.2 mm; 0.9 mm where the largest surface of the pack is under 80 cm².'
const netScope = 'Figures of the nominal quantity: 2 mm up to 50 g, 3 mm up to 200 g, 4 mm up to 1 kg, 6 mm above.'

const fitsSource: Source = {
  document: 'Label as drawn',
  section: 'text that does not fit is never set smaller, and never left off',
  edition: 'this program',
  mark: 'common-practice',
}
const fits = rule(
  'all.label.fits',
  'everywhere',
  'Everything stands on the label',
  'Every text, table and bar code at its least size, inside the edge of the label.',
  fitsSource,
)

const us317 = (section: string, mark: Source['mark']): Source => ({
  document: '9 CFR 317.2',
  section,
  edition: mark === 'quoted' ? 'figure read in a quotation' : 'not read',
  mark,
})

const unread = (document: string, section: string): Source => ({
  document,
  section,
  edition: 'not read',
  mark: 'from-memory',
})

export const labelTypeRules = {
  fits,
  CA: {
    letters: rule(
      'ca.label.letters',
      'CA',
      'Letters are large enough',
      'Every text: x-height of 1.6 mm or more, from memory. The list of ingredients and the allergen statement alone: 1.1 mm, or 1.4 mm beside a nutrition facts table of 8 points or more (Food and Drug Regulations, B.01.008.1, as read); the larger is held here.',
      unread('Safe Food for Canadians Regulations, SOR/2018-108', 'type size of information on a label'),
    ),
    net: rule(
      'ca.label.net-figures',
      'CA',
      'Figures of the net quantity are high enough',
      'Height by the area of the principal display surface: 1.6 mm up to 32 cm², 3.2 up to 258, 6.4 up to 645, 9.5 up to 2580, 12.7 above.',
      unread('Safe Food for Canadians Regulations, SOR/2018-108', 'type size of the numerals of the net quantity'),
    ),
  },
  'AU-NZ': {
    letters: rule(
      'au-nz.label.letters',
      'AU-NZ',
      'Letters are legible',
      'The Code asks for legible, prominent letters against a contrasting ground; no least height was found but for warning statements. 1.2 mm is held.',
      unread('Australia New Zealand Food Standards Code, Standard 1.2.1, division on legibility', 'legibility'),
    ),
    net: rule(
      'au-nz.label.net-figures',
      'AU-NZ',
      'Figures of the net quantity are high enough',
      'Height by the size of the pack; the largest height of the table, 4.8 mm, is held.',
      unread(
        'National Trade Measurement Regulations 2009 (Australia); Weights and Measures Regulations 1999 (New Zealand)',
        'height of the characters of the measurement marking',
      ),
    ),
  },
  EU: {
    letters: rule('eu.label.x-height', 'EU', 'Letters are large enough', xHeightScope, letters),
    net: rule('eu.label.net-figures', 'EU', 'Figures of the net quantity are high enough', netScope, figuresOfNet),
  },
  GB: {
    letters: rule('gb.label.x-height', 'GB', 'Letters are large enough', xHeightScope, kept(letters)),
    net: rule(
      'gb.label.net-figures',
      'GB',
      'Figures of the net quantity are high enough',
      netScope,
      kept(figuresOfNet),
    ),
  },
  US: {
    letters: rule(
      'us.label.letters',
      'US',
      'Letters are large enough',
      'Every text: lower-case letters of 1/16 inch or more. Read for the safe handling instructions; held here for the whole label. The heights of the nutrition panel by its own format are not held.',
      us317('(l): 1/16 inch for the safe handling instructions; for other texts from memory', 'from-memory'),
    ),
    net: rule(
      'us.label.net-figures',
      'US',
      'Net weight is high enough for the panel',
      'Height by the area of the principal display panel: 1/16 inch up to 5 square inches, 1/8 up to 25, 3/16 up to 100, 1/4 above.',
      us317('(h): height of the net quantity by the area of the principal display panel', 'from-memory'),
    ),
  },
} as const

export const labelTypeRuleList: readonly Rule[] = [
  fits,
  ...(['EU', 'GB', 'US', 'CA', 'AU-NZ'] as const).flatMap((p) => Object.values(labelTypeRules[p])),
]
