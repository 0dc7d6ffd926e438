import type { Source } from '@forcemeat/craft/source'

type Named = Pick<Source, 'document' | 'section'> & { readonly url?: string | undefined }

const GB = /as kept in Great Britain|kept in Great Britain/
const regulation = /Regulation \((?:EC|EU|EEC)\)(?: No)? (\d{1,4})\/(\d{1,4})/
const directive = /Directive (\d{2,4})\/(\d+)\/E/

/** Implementing regulations stand under another heading than regulations do. */
const implementing = new Set(['2015/1375'])

/** Number and year of a regulation: until 2014 the number came first. */
function numbered(first: string, second: string): { year: string; number: string } {
  const yearFirst = Number(first) >= 2015 && Number(first) <= 2100
  return yearFirst ? { year: first, number: second } : { year: second, number: first }
}

/** Whole texts that stand at one public address. Addresses from memory; none was opened while this was written. */
const whole: readonly (readonly [RegExp, string])[] = [
  [/SOR\/2018-108/, 'https://laws-lois.justice.gc.ca/eng/regulations/SOR-2018-108/'],
  [/C\.R\.C\., c\. 1605/, 'https://laws-lois.justice.gc.ca/eng/regulations/C.R.C.,_c._1605/'],
  [/Australia New Zealand Food Standards Code/, 'https://www.foodstandards.gov.au/food-standards-code/legislation'],
  [/FDA Food Code/, 'https://www.fda.gov/food/retail-food-protection/fda-food-code'],
  [/FSIS-GD-2021-14/, 'https://www.fsis.usda.gov/guidelines/2021-0014'],
  [/CXC 1-1969/, 'https://www.fao.org/fao-who-codexalimentarius/codex-texts/codes-of-practice'],
]

/**
 * Where the text of a source stands in public: the address it gives, else the one its kind of law is published under. Undefined where it has
 * none that follows from its name: trade practice, computed figures, books and papers.
 */
export function publicText({ document, section, url }: Named, jurisdiction?: string): string | undefined {
  if (url !== undefined) return url
  const cfr = /\b(9|21) CFR (\d+\.\d+)/.exec(document)
  // A section that is no longer in force is not where the law stands today.
  if (cfr && !/former/.test(document)) return `https://www.ecfr.gov/current/title-${cfr[1]}/section-${cfr[2]}`
  const eu = regulation.exec(document)
  if (eu) {
    const { year, number } = numbered(eu[1]!, eu[2]!)
    if (jurisdiction === 'GB' || GB.test(document) || GB.test(section))
      return `https://www.legislation.gov.uk/eur/${year}/${number}`
    const kind = implementing.has(`${year}/${number}`) ? 'reg_impl' : 'reg'
    return `https://eur-lex.europa.eu/eli/${kind}/${year}/${number}/oj`
  }
  const older = directive.exec(document)
  if (older) return `https://eur-lex.europa.eu/eli/dir/${older[1]!.padStart(4, '19')}/${older[2]}/oj`
  return whole.find(([named]) => named.test(document))?.[1]
}
