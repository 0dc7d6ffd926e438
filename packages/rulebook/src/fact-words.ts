/** Facts in a maker's words, for findings that ask for one. */
const words: Readonly<Record<string, string>> = {
  route: 'how it is cured (comminuted, pumped, immersed or dry-rubbed)',
  kind: 'the kind of product (fresh, cooked, fermented or dried)',
  smoked: 'whether it is smoked',
  coldSmoked: 'whether it is smoked cold (below 29 °C)',
  readyToEat: 'whether it is eaten as sold',
  longWarm: 'whether it spends hours between 4 and 60 °C',
  bacon: 'whether it is bacon',
  wholeCut: 'whether it is a whole piece',
  reducedNitriteScheme: 'whether it is made under the 100 ppm scheme for bacon',
  lacticCulture: 'whether a lactic culture and sugar are used',
  toBeFried: 'whether it is meant to be fried',
  processProof: 'whether a proof of the process is on file',
  pork: 'whether it holds pork or wild boar',
  rawPork: 'whether it holds pork that is eaten without a full cook',
  porkTreated: 'how the pork was treated (a document on each lot)',
  meatKind: 'the species of the meat',
  cured: 'whether it holds nitrite or nitrate',
  nitrateAdded: 'whether it holds nitrate',
  acceleratorAdded: 'whether it holds ascorbate or erythorbate',
  euCategory: 'the category of product (08.2, 08.3.1, 08.3.2 or 08.3.4)',
}

/** A fact in words; its own name where none is kept. */
export const factWords = (fact: string): string => words[fact] ?? fact
