import type { Source } from '@forcemeat/craft/source'

/** Papers on a lot that a place lets stand in for a treatment of its own, and for which meats. */
export type Paper = {
  readonly way: 'certified-herd' | 'tested' | 'freezing-certificate'
  readonly place: 'US' | 'EU'
  /** Whether it holds for game and horse meat too. */
  readonly game: boolean
  readonly asks: string
  readonly source: Source
}

const guideline: Source = {
  document: 'FSIS compliance guideline on Trichinella and other parasites in pork products',
  section: 'options for preventing and controlling Trichinella',
  edition: '2018 draft, as quoted',
  url: 'https://www.fsis.usda.gov/policy/fsis-directives/7320.1',
  mark: 'quoted',
}
const regulation = (section: string): Source => ({
  document: 'Regulation (EU) 2015/1375',
  section,
  edition: 'as quoted; consolidated to 4 November 2020',
  url: 'https://eur-lex.europa.eu/eli/reg_impl/2015/1375/oj',
  mark: 'quoted',
})

export const papers: readonly Paper[] = [
  {
    way: 'certified-herd',
    place: 'US',
    game: false,
    asks: 'the certificate of the herd, for this lot',
    source: guideline,
  },
  { way: 'tested', place: 'US', game: true, asks: 'the result of the test, for this lot', source: guideline },
  {
    way: 'freezing-certificate',
    place: 'US',
    game: false,
    asks: 'the record of the freezing, for this lot',
    source: guideline,
  },
  {
    way: 'certified-herd',
    place: 'EU',
    game: false,
    asks: 'the official recognition of the holding, for this lot',
    source: regulation('Article 3, holdings officially recognised as applying controlled housing conditions'),
  },
  {
    way: 'tested',
    place: 'EU',
    game: true,
    asks: 'the result of the examination of each carcass, for this lot',
    source: regulation('Article 2, sampling of carcasses of domestic swine, horses, wild boar and other animals'),
  },
  {
    way: 'freezing-certificate',
    place: 'EU',
    game: false,
    asks: 'the record of the freezing under the competent authority, for this lot',
    source: regulation('Article 3, freezing treatment in accordance with Annex II'),
  },
]

/**
 * What a paper has to be called to count, by the way it stands for. A choice of ours: words inside a free text ("not frozen", "halal
 * certificate") say nothing of Trichinella, so that only these whole names do, in capitals or not.
 */
export const paperKinds: Readonly<Record<Paper['way'], readonly string[]>> = {
  tested: ['Trichinella test certificate'],
  'certified-herd': ['controlled housing (Trichinella-free herd) certificate'],
  'freezing-certificate': ['pork freezing record', 'pork freezing certificate'],
}

/** What a paper of this name stands for; nothing where the name is not one of `paperKinds`. */
export function wayOfPaper(kind: string): Paper['way'] | undefined {
  const called = kind.trim().replace(/\s+/g, ' ').toLowerCase()
  return (Object.keys(paperKinds) as Paper['way'][]).find((way) =>
    paperKinds[way].some((k) => k.toLowerCase() === called),
  )
}
