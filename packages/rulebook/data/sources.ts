import type { Mark, Source } from '@forcemeat/craft/source'

type At = { readonly document: string; readonly edition: string; readonly url?: string; readonly mark: Mark }

/** A place in a document, made into a source by its section. */
const at =
  (document: At) =>
  (section: string, mark: Mark = document.mark): Source => ({ ...document, section, mark })

/** Title 9, read in a machine-readable public copy of about 2014; the chart's rows were read in full there. Later amendments were not checked. */
export const cfr9Chart = at({
  document: '9 CFR 424.21(c), chart of food ingredients',
  edition: 'public copy of the CFR of about 2014; later amendments not checked',
  url: 'https://www.ecfr.gov/current/title-9/section-424.21',
  mark: 'seen',
})

export const cfr9 = (section: string, mark: Mark = 'seen'): Source => ({
  document: `9 CFR ${section.replace(/\(.*$/, '')}`,
  section,
  edition: 'eCFR copy, undated, no earlier than 2018',
  url: `https://www.ecfr.gov/current/title-9/section-${section.replace(/\(.*$/, '')}`,
  mark,
})

export const cfr21 = (section: string, edition: string): Source => ({
  document: `21 CFR ${section.replace(/\(.*$/, '')}`,
  section,
  edition,
  url: `https://www.ecfr.gov/current/title-21/section-${section.replace(/\(.*$/, '')}`,
  mark: 'seen',
})

export const handbook = at({
  document: "FSIS Directive 7620.3, Processing Inspectors' Calculations Handbook",
  edition: 'rev. 1995, as quoted in a public thread',
  url: 'https://www.fsis.usda.gov/policy/fsis-directives/7620.3',
  mark: 'quoted',
})

export const eu1333 = at({
  document: 'Regulation (EC) No 1333/2008, Annex II Part E, category 08',
  edition: 'points in time 2012-12-03, 2013-10-14, 2014-06-25; table as in EFSA Journal 2017;15(6):4786',
  url: 'https://www.legislation.gov.uk/eur/2008/1333',
  mark: 'seen',
})

export const eu2108 = at({
  document: 'Commission Regulation (EU) 2023/2108, annex (amends Annex II to Regulation (EC) No 1333/2008)',
  edition: 'OJ L, 2023/2108, 9.10.2023',
  url: 'https://eur-lex.europa.eu/eli/reg/2023/2108/oj',
  mark: 'quoted',
})

export const gb1333 = at({
  document: 'Regulation (EC) No 1333/2008 as kept in Great Britain, Annex II Part E, category 08',
  edition: 'rows as before 2021; no later change reported by late 2025',
  url: 'https://www.legislation.gov.uk/eur/2008/1333',
  mark: 'seen',
})

export const si3001 = at({
  document: 'The Products Containing Meat etc. (England) Regulations 2014, SI 2014/3001',
  edition: 'as amended by SI 2021/1271',
  url: 'https://www.legislation.gov.uk/uksi/2014/3001',
  mark: 'seen',
})

export const cfia = at({
  document: 'CFIA Meat Hygiene Manual of Procedures, chapter 4, 4.13.1 (archived)',
  edition: 'archived; standing in law to be checked',
  url: 'https://inspection.canada.ca',
  mark: 'seen',
})

export const caIdentity = at({
  document: 'Canadian Standards of Identity, volume 7',
  edition: 'as published by CFIA',
  url: 'https://inspection.canada.ca',
  mark: 'seen',
})

export const caFdr = at({
  document: 'Food and Drug Regulations, C.R.C., c. 870, Part B Division 14',
  edition: 'consolidation to 15 June 2026',
  url: 'https://laws-lois.justice.gc.ca/eng/regulations/C.R.C.,_c._870/',
  mark: 'seen',
})

export const gsfa = at({
  document: 'Codex General Standard for Food Additives, CXS 192-1995, NITRITES group',
  edition: 'GSFA online, undated copy',
  url: 'https://www.fao.org/gsfaonline',
  mark: 'seen',
})

export const anzSchedule15 = at({
  document: 'Australia New Zealand Food Standards Code, Schedule 15',
  edition: 'not read',
  url: 'https://www.legislation.gov.au',
  mark: 'from-memory',
})

export const anz221 = at({
  document: 'Australia New Zealand Food Standards Code, Standard 2.2.1',
  edition: 'NZ Gazette 170/2000 p. 4676; 2015-gs1890',
  url: 'https://www.legislation.gov.au',
  mark: 'seen',
})

/** What the trade does, with no document behind it. */
export const trade = (section: string): Source => ({
  document: 'Common practice of the trade, no source',
  section,
  edition: 'none',
  mark: 'common-practice',
})
