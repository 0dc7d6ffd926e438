import type { CuredPorkWords, QualifyingWord } from '@forcemeat/craft/declare/qualifying'
import type { Source } from '@forcemeat/craft/source'
import type { Rule } from '../../src/rule.ts'

const fic = (section: string, mark: Source['mark']): Source => ({
  document: 'Regulation (EU) 1169/2011',
  section,
  edition: mark === 'from-memory' ? 'wording not read' : 'read in summaries of authorities and of a university',
  mark,
})
const gb = (s: Source): Source => ({ ...s, section: `${s.section}, kept in Great Britain` })
const cfr = (section: string, mark: Source['mark'], edition = 'not read'): Source => ({
  document: '9 CFR',
  section,
  edition: mark === 'seen' ? 'eCFR, stored copy' : edition,
  url: 'https://www.ecfr.gov/current/title-9',
  mark,
})
const fdr = (section: string, mark: Source['mark']): Source => ({
  document: 'Food and Drug Regulations (Canada), C.R.C., c. 870',
  section,
  edition: mark === 'seen' ? 'consolidation of 21 November 2025' : 'not read',
  url: 'https://laws-lois.justice.gc.ca/eng/regulations/C.R.C.,_c._870/',
  mark,
})
const cfia = (section: string): Source => ({
  document: 'Canadian Food Inspection Agency, food labels, guidance for industry',
  section,
  edition: 'as published on inspection.canada.ca',
  url: 'https://inspection.canada.ca/en/food-labels/labelling/industry',
  mark: 'seen',
})
const code = (section: string, mark: Source['mark']): Source => ({
  document: 'Australia New Zealand Food Standards Code',
  section,
  edition:
    mark === 'seen'
      ? 'as made in 2015, read in the New Zealand Gazette of 8 May 2015, number 49; later amendments not read'
      : 'not read',
  mark,
})
const casings: Source = {
  document: '9 CFR 317.8(b)(37) and (38)',
  section: 'source of natural casings of another animal; collagen casings',
  edition: 'final rule, 66 FR 40843, 6 August 2001, and FSIS constituent update of 26 May 2023',
  url: 'http://www.fsis.usda.gov/OPPDE/rdad/FRPubs/94-030F.htm',
  mark: 'quoted',
}

type Row = Omit<QualifyingWord, 'id' | 'place'> & {
  readonly id: string
  readonly source: Source
  readonly scope: string
}

const europe = (of: (s: Source) => Source): readonly Row[] => [
  {
    id: 'smoked',
    when: { fact: 'smoked' },
    text: 'smoked',
    says: ['smoked'],
    onlyWhere: true,
    scope: 'Physical condition or treatment, where its omission could mislead.',
    source: of(fic('Annex VI, part A, point 1', 'from-memory')),
  },
  {
    id: 'smoke-flavour',
    when: { fact: 'smokeFlavoured' },
    text: 'with smoke flavouring',
    says: ['smoke flavour'],
    scope: 'Smoke flavourings that give a smoky taste are named as such; they are no smoking.',
    source: of(fic('Annex VII, part D; Regulation (EC) 2065/2003', 'from-memory')),
  },
  {
    id: 'cooked',
    when: { fact: 'cooked' },
    text: 'cooked',
    says: ['cooked', 'boiled', 'roast'],
    scope: 'Physical condition or treatment, where its omission could mislead.',
    source: of(fic('Annex VI, part A, point 1', 'from-memory')),
  },
  {
    id: 'defrosted',
    when: { fact: 'defrosted' },
    text: 'defrosted',
    says: ['defrosted'],
    scope:
      'Foods frozen before sale and sold defrosted; not where freezing is a step of making or does no harm to safety or quality.',
    source: of(fic('Annex VI, part A, point 2', 'from-memory')),
  },
  {
    id: 'added-water',
    when: { measure: 'addedWaterPct', over: 5, and: 'looksLikeCut' },
    text: 'with added water',
    says: ['added water'],
    scope:
      'Meat products and preparations that look like a cut, joint, slice, portion or carcase, with added water over 5 % of the finished weight.',
    source: of(fic('Annex VI, part A, point 6', 'quoted')),
  },
  {
    id: 'other-protein',
    when: { fact: 'otherAnimalProtein' },
    text: 'with added protein of another animal',
    says: ['protein'],
    scope: 'Added proteins of another animal species, in the name.',
    source: of(fic('Annex VI, part A, point 5', 'quoted')),
  },
  {
    id: 'formed',
    when: { fact: 'formedFromPieces' },
    text: 'formed meat',
    says: ['formed'],
    scope: 'What gives the impression of a whole piece of meat and is made of pieces joined together.',
    source: of(fic('Annex VI, part A, point 7', 'from-memory')),
  },
  {
    id: 'mechanically-separated',
    when: { fact: 'mechanicallySeparated' },
    text: 'mechanically separated meat',
    says: [],
    inList: ['mechanically separated'],
    scope: 'Named in the list with its species; it is no meat.',
    source: of(fic('Annex VII, part B, points 17 and 18', 'quoted')),
  },
  {
    id: 'sulphites',
    when: { fact: 'sulphited' },
    text: 'sulphites',
    says: [],
    inList: ['sulphite', 'sulphur dioxide'],
    scope: 'Over 10 mg/kg as sulphur dioxide: named and set off in the list.',
    source: of(fic('Article 21, Annex II point 12', 'quoted')),
  },
  {
    id: 'sweetener',
    when: { fact: 'sweetener', not: 'sugars' },
    text: 'with sweetener(s)',
    says: ['sweetener'],
    scope: 'Food with sweeteners and no added sugars: beside the name.',
    source: of(fic('Annex III, point 2.1', 'from-memory')),
  },
  {
    id: 'sugar-and-sweetener',
    when: { fact: 'sweetener', and: 'sugars' },
    text: 'with sugar(s) and sweetener(s)',
    says: ['sugar(s) and sweetener(s)'],
    scope: 'Food with added sugars and sweeteners: beside the name.',
    source: of(fic('Annex III, point 2.2', 'from-memory')),
  },
  {
    id: 'casing',
    when: { fact: 'casingInedible' },
    text: 'casing not edible',
    says: [],
    inStatements: ['not edible'],
    scope: 'A sausage casing that cannot be eaten is stated.',
    source: of(fic('Annex VI, part C', 'from-memory')),
  },
]

const us: readonly Row[] = [
  {
    id: 'smoked',
    when: { fact: 'smoked' },
    text: 'smoked',
    says: ['smoked'],
    onlyWhere: true,
    scope:
      'Treatment that tells the product from one without it; real smoke of hardwood or other non-resinous material.',
    source: cfr('319.160; 317.2(c)(1)', 'seen'),
  },
  {
    id: 'smoke-flavour',
    when: { fact: 'smokeFlavoured' },
    text: 'smoke flavoring added',
    says: ['smoke flavor'],
    scope: 'Approved smoke flavoring: stated beside the name, and in the list. It does not make a product "smoked".',
    source: cfr('317.8(b)', 'from-memory'),
  },
  {
    id: 'cooked',
    when: { fact: 'cooked' },
    text: 'cooked',
    says: ['cooked', 'frankfurter', 'wiener', 'bologna', 'knockwurst', 'liverwurst', 'liver sausage'],
    scope: 'Of a product usually sold raw; Italian sausage, same size and style of lettering.',
    source: cfr('319.145', 'seen'),
  },
  {
    id: 'cured',
    when: { fact: 'curedItalian' },
    text: 'cured',
    says: ['cured'],
    scope: 'Italian sausage with nitrite or nitrate: the word in the name, same size and style.',
    source: cfr('319.145', 'seen'),
  },
  {
    id: 'uncured',
    when: { fact: 'curedByStandardWithoutNitrite' },
    text: 'Uncured',
    says: ['uncured'],
    onlyWhere: true,
    scope:
      'A product with a standard that is usually cured, made without nitrite and nitrate: the word with the name, same size and style.',
    source: cfr('319.2', 'seen'),
  },
  {
    id: 'no-nitrite',
    when: { fact: 'curedByStandardWithoutNitrite' },
    text: 'No Nitrate or Nitrite Added',
    says: ['no nitrate or nitrite added'],
    scope:
      'Beside the uncured name; and "Not Preserved, Keep Refrigerated Below 40 °F At All Times" unless heated to Fo 3, or pH at most 4.6, or water activity at most 0.85.',
    source: cfr('317.17(b) and (c)', 'from-memory'),
  },
  {
    id: 'by-products',
    when: { fact: 'offal' },
    text: 'with by-products',
    says: ['by-products', 'variety meats', 'liver'],
    scope:
      'Cooked sausage of 319.180(b) with by-products or variety meats: contiguous to the name; each by-product named with its species.',
    source: cfr('319.180(b) to (g)', 'seen'),
  },
  {
    id: 'formed',
    when: { fact: 'formedFromPieces' },
    text: 'formed from pieces',
    says: ['formed', 'sectioned', 'chunked'],
    scope: 'Pieces joined into the look of a cut.',
    source: cfr('FSIS Food Standards and Labeling Policy Book', 'from-memory'),
  },
  {
    id: 'mechanically-separated',
    when: { fact: 'mechanicallySeparated' },
    text: 'mechanically separated (species)',
    says: [],
    inList: ['mechanically separated'],
    scope: 'Named in the list with its species.',
    source: cfr('319.5, 319.6', 'from-memory'),
  },
  {
    id: 'defrosted',
    when: { fact: 'defrosted' },
    text: 'previously frozen',
    says: ['previously frozen'],
    scope: 'Not asked for by the meat regulations as far as known; some States ask for it at retail.',
    source: cfr('317; State retail law', 'from-memory'),
  },
  {
    id: 'casing',
    when: { fact: 'casingOtherAnimal' },
    text: 'packed in casing of another animal',
    says: ['casing'],
    inStatements: ['packed in'],
    scope:
      'Natural casing of another animal than the meat in it; collagen casing of another animal or of none that is known.',
    source: casings,
  },
]

const ca: readonly Row[] = [
  {
    id: 'smoked',
    when: { fact: 'smoked' },
    text: 'smoked',
    says: ['smoked'],
    onlyWhere: true,
    scope:
      'Condition of the food, where it is likely to be mistaken for another; where shown, part of the common name.',
    source: fdr('B.01.006.1', 'seen'),
  },
  {
    id: 'smoke-flavour',
    when: { fact: 'smokeFlavoured' },
    text: 'smoke flavour added',
    says: ['smoke flavour'],
    scope: 'Smoke flavour is no smoking; it stands in the list.',
    source: fdr('B.01.006.1; Food Compositional Standards Document, volume 13', 'from-memory'),
  },
  {
    id: 'cooked',
    when: { fact: 'cooked' },
    text: 'cooked',
    says: ['cooked'],
    scope: 'Condition of the food, where it is likely to be mistaken for another.',
    source: fdr('B.01.006.1', 'seen'),
  },
  {
    id: 'previously-frozen',
    when: { fact: 'defrosted' },
    text: 'previously frozen',
    says: ['previously frozen'],
    scope: 'Meat of a single ingredient thawed before sale.',
    source: cfia('date markings on specific products: thawed meat'),
  },
  {
    id: 'mechanically-separated',
    when: { fact: 'mechanicallySeparated' },
    text: 'mechanically separated',
    says: [],
    inList: ['mechanically separated'],
    scope: 'Named in the list.',
    source: fdr('Food Compositional Standards Document, volume 13', 'from-memory'),
  },
  {
    id: 'sulphites',
    when: { fact: 'sulphited' },
    text: 'sulphites',
    says: [],
    inList: ['sulphite', 'sulfite'],
    scope: 'From 10 parts per million in all: in the list or in the statement behind it.',
    source: fdr('B.01.010.1 to B.01.010.3', 'seen'),
  },
  {
    id: 'casing',
    when: { fact: 'casingOtherAnimal' },
    text: 'natural casing of another animal',
    says: ['casing'],
    inStatements: ['packed in'],
    scope: 'Casings need not be listed, but a natural casing of another animal than the meat is declared.',
    source: cfia('ingredients that generally do not have to be declared; meat products in natural casings'),
  },
]

const auNz: readonly Row[] = [
  {
    id: 'smoked',
    when: { fact: 'smoked' },
    text: 'smoked',
    says: ['smoked'],
    onlyWhere: true,
    scope: 'A name or description that tells the true nature of the food.',
    source: code('Standard 1.2.2, 1.2.2—2', 'from-memory'),
  },
  {
    id: 'smoke-flavour',
    when: { fact: 'smokeFlavoured' },
    text: 'smoke flavoured',
    says: ['smoke flavour'],
    scope: 'A name or description that tells the true nature of the food.',
    source: code('Standard 1.2.2, 1.2.2—2', 'from-memory'),
  },
  {
    id: 'offal',
    when: { fact: 'offal' },
    text: 'offal',
    says: ['offal', 'liver', 'kidney', 'heart', 'tongue', 'tripe', 'brain'],
    inList: ['offal', 'liver', 'kidney', 'heart', 'tongue', 'tripe', 'brain', 'blood', 'lung', 'spleen', 'stomach'],
    scope: 'Brain, heart, kidney, liver, tongue or tripe as offal or by name; any other offal by its name.',
    source: code('Standard 2.2.1, 2.2.1—6', 'seen'),
  },
  {
    id: 'formed',
    when: { fact: 'formedFromPieces' },
    text: 'formed meat',
    says: ['formed', 'joined'],
    scope: 'Raw meat joined or formed into the look of a cut: said so, with cooking instructions that make it safe.',
    source: code('Standard 2.2.1, 2.2.1—8', 'seen'),
  },
  {
    id: 'fermented-raw',
    when: { fact: 'fermentedNotHeated' },
    text: 'fermented processed meat – not heat treated',
    says: ['not heat treated'],
    scope:
      'Prescribed name of fermented comminuted processed meat; "fermented manufactured meat" where it is manufactured meat.',
    source: code('Standard 2.2.1, 2.2.1—9 and 2.2.1—10', 'seen'),
  },
  {
    id: 'fermented-heated',
    when: { fact: 'fermentedHeated' },
    text: 'fermented processed meat – heat treated',
    says: ['heat treated'],
    scope: 'Prescribed name of fermented comminuted processed meat that has been heat treated.',
    source: code('Standard 2.2.1, 2.2.1—9 and 2.2.1—10', 'seen'),
  },
  {
    id: 'sulphites',
    when: { fact: 'sulphited' },
    text: 'sulphites',
    says: [],
    inList: ['sulphite', 'sulphur dioxide'],
    scope: 'From 10 mg/kg.',
    source: code('Standard 1.2.3 and Schedule 9', 'from-memory'),
  },
]

const all: readonly (Row & { place: QualifyingWord['place'] })[] = [
  ...us.map((r) => ({ ...r, place: 'US' as const })),
  ...europe((s) => s).map((r) => ({ ...r, place: 'EU' as const })),
  ...europe(gb).map((r) => ({ ...r, place: 'GB' as const })),
  ...ca.map((r) => ({ ...r, place: 'CA' as const })),
  ...auNz.map((r) => ({ ...r, place: 'AU-NZ' as const })),
]

const idOf = (place: string, id: string): string => `${place.toLowerCase()}.name.${id}`

/**
 * Words of cured pork products by their protein on the fat-free part, percent: the least for the plain name, for "with natural juices" and
 * for "water added"; under the last the name says how much was added (9 CFR 319.104, as read in a copy of the chart).
 */
export const curedPorkWords: CuredPorkWords = {
  'cooked-ham-or-loin': { plain: 20.5, withNaturalJuices: 18.5, waterAdded: 17 },
  'cooked-shoulder-butt-or-picnic': { plain: 20, withNaturalJuices: 18, waterAdded: 16.5 },
  'uncooked-ham-or-loin': { plain: 18 },
  'uncooked-shoulder-butt-or-picnic': { plain: 17.5 },
}

/** Words that qualify a name, place by place: when each is due and what says it already. */
export const qualifyingWords: readonly QualifyingWord[] = all.map(({ source: _source, scope: _scope, ...r }) => ({
  ...r,
  id: idOf(r.place, r.id),
}))

/** The same as rules, with their sources. */
export const qualifyingRules: Readonly<Record<string, Rule>> = Object.fromEntries(
  all.map((r) => [
    idOf(r.place, r.id),
    {
      id: idOf(r.place, r.id),
      title: `Said where it is due: ${r.text}`,
      jurisdiction: r.place,
      topic: 'label',
      scope: r.scope,
      unit: '',
      weight: 'limit',
      values: [{ source: r.source }],
    },
  ]),
)

export const qualifyingRuleList: readonly Rule[] = Object.values(qualifyingRules)
