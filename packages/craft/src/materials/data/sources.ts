import type { Source } from '../../source.ts'

/** A source of the materials table, with the licence its figures are used under. */
export type MaterialSource = Source & { readonly licence: string }

/** Databases whose rows are named by a prefix and the row's own number, e.g. "USDA SR28 NDB 10187". */
export const databases: Readonly<Record<string, MaterialSource>> = {
  'USDA SR28 NDB ': {
    document: 'USDA National Nutrient Database for Standard Reference, Release 28',
    section: 'NUT_DATA, carbohydrate by difference (fibre included)',
    edition: 'September 2015',
    url: 'https://www.ars.usda.gov/nea/bhnrc/mafcl',
    mark: 'seen',
    licence: 'work of the US Government, public domain',
  },
  'Ciqual 2020 ': {
    document: 'Anses, Table de composition nutritionnelle des aliments Ciqual',
    section: 'available carbohydrate (fibre apart)',
    edition: '7 July 2020',
    url: 'https://ciqual.anses.fr/',
    mark: 'seen',
    licence: 'Licence Ouverte / Etalab 2.0; Anses. 2020. Ciqual French food composition table',
  },
  'BLS 4.0 ': {
    document: 'Max Rubner-Institut, Bundeslebensmittelschlüssel (BLS)',
    section: 'protein (N × 6.25), fat, available carbohydrate',
    edition: '4.0, 2025',
    url: 'https://www.blsdb.de/',
    mark: 'quoted',
    licence: 'CC BY 4.0; Max Rubner-Institut (MRI), BLS 4.0, 2025',
  },
}

/** Sources and derivations named as a whole. */
export const namedSources: Readonly<Record<string, MaterialSource>> = {
  'hoa-2021': {
    document: 'Hoa et al., Food Sci. Anim. Resour. 41(2):224–236, doi 10.5851/kosfa.2020.e91',
    section: 'Table 2: fat of pork belly (SD 11.1–11.5 points) and shoulder butt (SD 6.2–8.5), 72 pigs',
    edition: '2021',
    url: 'https://pmc.ncbi.nlm.nih.gov/articles/PMC8115004/table/T2',
    mark: 'seen',
    licence: 'figures cited',
  },
  'meat-sci-1986': {
    document:
      'Collagen content of meat carcasses of known history, Meat Science 12(4):189–203, doi 10.1016/0309-1740(86)90051-3',
    section: 'abstract: collagen in wet fat-free tissue by joint, 27 pigs and 13 cattle; times (100 − fat)/100',
    edition: '1986',
    url: 'https://pubmed.ncbi.nlm.nih.gov/22055297',
    mark: 'computed',
    licence: 'figures cited',
  },
  'reuterswaerd-1985': {
    document: 'Reuterswärd, Asp & Björck, Int. J. Food Sci. Technol., doi 10.1111/j.1365-2621.1985.tb01972.x',
    section: 'abstract: collagen 75 % of the protein of pig skin',
    edition: '1985',
    mark: 'quoted',
    licence: 'figures cited',
  },
  'sona-2020': {
    document: 'Sona et al., J. Vet. Anim. Sci. 51(1):79–81',
    section: 'abstract: collagen of turkey skin, 8.14 and 8.16 g/100 g',
    edition: '2020',
    mark: 'quoted',
    licence: 'figures cited',
  },
  'hydroxyproline-8': {
    document: 'USDA National Nutrient Database for Standard Reference, Release 28',
    section: 'nutrient 521 (hydroxyproline, analysed samples only) × 8',
    edition: 'September 2015',
    mark: 'computed',
    licence: 'work of the US Government, public domain',
  },
  'interpolated-on-fat': {
    document: 'Linear interpolation on fat between the two database rows named before it',
    section: 'water, protein and ash; carbohydrate left out',
    edition: 'this table',
    mark: 'computed',
    licence: 'own work',
  },
  stoichiometry: {
    document: 'Computed from the formula with the atomic masses of IUPAC',
    section: 'sodium, water of hydration, share of the named salt',
    edition: 'standard atomic weights',
    mark: 'computed',
    licence: 'own work',
  },
  'by-composition': {
    document: 'What the material is sold as: the percentages in its name, the rest sodium chloride',
    section: 'carriers, colour and free-flow agents left out',
    edition: 'this table',
    mark: 'common-practice',
    licence: 'own work',
  },
  'assumed-spread': {
    document: 'Assumed standard deviation of fat: 2 points for lean lots, 4 for fatty trim',
    section: "no published lot-to-lot figure was found; to be replaced by the kitchen's own analyses",
    edition: 'this table',
    mark: 'common-practice',
    licence: 'own work',
  },
  'trade-bind-table': {
    document: 'Trade table of fat, protein and moisture to protein of pork by-products',
    section: 'pork skin: 32 % fat, 28.3 % protein, moisture to protein 1.40',
    edition: 'no date, no samples stated',
    mark: 'common-practice',
    licence: 'figures cited',
  },
  'no-source': {
    document: 'No analysis was found',
    section: 'composition left blank',
    edition: 'this table',
    mark: 'from-memory',
    licence: 'none',
  },
}
