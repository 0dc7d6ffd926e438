// What a name says is held against what is in the product. Regulation (EU) 1169/2011, Articles 7(1) and 17; 9 CFR 317.8(a), 319.141, 319.180;
// Safe Food for Canadians Regulations, 199(1)(b). Words of names are of the trade, no source.
import { describe, expect, it } from 'vitest'
import { label } from '../../src/declare/label/label.ts'
import type { LabelInput } from '../../src/declare/label/schema.ts'

type Item = LabelInput['items'][number]
const pork: Item = { kg: 10, material: 'pork-shoulder-trim' }
const salt: Item = { kg: 0.18, material: 'salt' }
const cure: Item = { kg: 0.02, material: 'curing-salt-6.25-nitrite' }
const of = (material: string, kg = 1): Item => ({ kg, material })

const blocks = (
  name: string,
  items: Item[] = [pork, salt],
  place: LabelInput['place'] = 'EU',
  product: Partial<LabelInput['product']> = {},
  pack: Partial<LabelInput['pack']> = {},
) =>
  label({
    place,
    recipe: 'X',
    product: { name, kind: 'fresh', smoked: false, readyToEat: false, ...product },
    items,
    packedOn: '2026-02-02',
    pack: { business: 'Tansy Lane Kitchen', ...pack },
  }).blocks.filter((b) => /\.name\.(claims|documents)@/.test(b.id))
const stopped = (...of: Parameters<typeof blocks>) =>
  blocks(...of).find((b) => b.id.includes('.name.claims') && b.by === 'data')?.what
const asked = (...of: Parameters<typeof blocks>) =>
  blocks(...of).find((b) => b.id.includes('.name.documents') && b.by === 'person')?.what

describe('animals in a name', () => {
  it.each([
    ['Chicken sausage', [of('pork-shoulder-trim', 5.8), of('beef-chuck', 3.9)], /chicken/],
    ['Fresh Pork Sausage', [of('pork-shoulder-trim', 6), of('beef-chuck', 4)], /beef/],
    ['Venison link', [pork], /venison/],
    ['Turkey Frank', [pork, cure], /turkey/],
    ['Geflügelwurst', [pork], /poultry/],
    ['Saucisse de bœuf', [pork], /beef/],
    ['Poultry link', [pork], /poultry/],
    ['Chicken and pork link', [pork, of('chicken-skin')], /chicken/],
    ['Wild boar sausage', [pork], /boar/],
    ['Ostrich sausage', [pork], /ostrich/],
    ['Kangaroo sausage', [pork], /kangaroo/],
    ['Wagyu sausage', [pork], /beef/],
    ['Angus sausage', [pork], /beef/],
    ['Quail sausage', [pork], /quail/],
    ['Beefsteak sausage', [pork], /beef/],
    ['Lamb sausage', [of('mutton-shoulder', 10)], /lamb/],
  ] as [string, Item[], RegExp][])('%s of another is stopped in every place', (name, items, said) => {
    for (const place of ['EU', 'GB', 'US', 'CA', 'AU-NZ'] as const)
      expect(stopped(name, items, place), place).toMatch(said)
  })

  it.each([
    ['Pork link', [pork]],
    ['Pork and beef link', [pork, of('beef-chuck', 4)]],
    ['Poultry sausage', [of('chicken-thigh', 6), of('turkey-thigh', 4)]],
    ['Game sausage', [of('venison', 6), of('rabbit', 4)]],
    ['Goat cheese and pork link', [pork, of('cheese-feta')]],
    ['Pork link in sheep casing', [pork]],
    ['Mutton sausage', [of('mutton-shoulder', 10)]],
    ['Beef and bacon link', [of('beef-chuck', 9), of('bacon')]],
    ['Chicken and ham link', [of('chicken-thigh', 8), of('pork-leg-lean', 2)]],
    ['Saucisse de porc fraîche', [pork]],
    ['Chicken sausage', [of('chicken-thigh', 9), of('chicken-skin', 1)]],
  ] as [string, Item[]][])('%s that holds them is not', (name, items) => {
    expect(stopped(name, items)).toBeUndefined()
  })

  it('are kept to those a standard of the United States is for, beside the fat and water it limits', () => {
    const cooked = { kind: 'cooked' as const, readyToEat: true }
    expect(stopped('Beef Frankfurter', [pork, cure], 'US', cooked)).toMatch(/beef/)
    expect(stopped('Fresh Pork Sausage', [pork, of('beef-chuck', 4)], 'US')).toMatch(/Fresh pork sausage.*pork alone/i)
  })
})

describe('every part of an animal the name leaves out', () => {
  it.each([
    ['Beef sausage', [of('beef-chuck', 7.5), of('pork-back-fat', 2.5)], /pork back fat/],
    ['Beef sausage', [of('beef-chuck', 7.5), of('pork-rind-boiled', 2.5)], /pork rind/],
    ['Pork sausage', [of('pork-shoulder-trim', 8), of('chicken-mechanically-separated', 2)], /mechanically separated/],
    ['Pork sausage', [of('pork-shoulder-trim', 8), of('beef-heart', 2)], /beef heart/],
    ['Pork sausage', [of('pork-shoulder-trim', 8), of('chicken-liver', 2)], /chicken liver/],
    ['Pork sausage', [of('pork-shoulder-trim', 9), of('beef-blood')], /beef blood/],
  ] as [string, Item[], RegExp][])('is against %s', (name, items, said) => {
    expect(stopped(name, items)).toMatch(said)
  })
  it.each([
    ['Beef sausage with pork fat', [of('beef-chuck', 7.5), of('pork-back-fat', 2.5)]],
    ['Pork sausage', [of('pork-shoulder-trim', 8), of('pork-back-fat', 2)]],
    ['Beef and lard link', [of('beef-chuck', 9), of('lard')]],
    ['Pork sausage with pork rinds', [of('pork-shoulder-trim', 8), of('pork-rind-boiled', 2)]],
    ['Pork and beef heart sausage', [of('pork-shoulder-trim', 8), of('beef-heart', 2)]],
    ['Venison sausage with olive oil', [of('venison', 9), of('olive-oil')]],
  ] as [string, Item[]][])('%s that names it is not', (name, items) => {
    expect(stopped(name, items)).toBeUndefined()
    expect(asked(name, items)).toBeUndefined()
  })
  it('is asked about where the animal is in it by its fat alone', () => {
    expect(asked('Beef and pork sausage', [of('beef-chuck', 8), of('pork-back-fat', 2)])).toMatch(/pork back fat alone/)
  })
})

describe('ingredients in a name', () => {
  it.each([
    ['Pork and leek link', [pork, salt], /leek/],
    ['Pork & apple sausage', [pork, of('leek')], /apple/],
    ['Cheddar link', [pork], /cheddar/],
    ['Pork and chestnut', [pork], /chestnut/],
    ['Bacon link', [pork], /bacon/],
    ['Crab link', [pork], /crab/],
    ['Gorgonzola link', [pork], /blue cheese/],
    ['Peanut link', [pork], /peanut/],
    ['Liver sausage', [pork], /liver/],
    ['Herb link', [pork, of('black-pepper', 0.1)], /herb/],
  ] as [string, Item[], RegExp][])('%s without it is stopped', (name, items, said) => {
    expect(stopped(name, items)).toMatch(said)
  })
  it.each([
    ['Pork and leek link', [pork, of('leek')]],
    ['Pork and apple sausage', [pork, of('apple-dried')]],
    ['Sage and onion link', [pork, of('sage-ground', 0.1), of('onion-flakes', 0.1)]],
    ['Herb link', [pork, of('parsley-dried', 0.1)]],
    ['Garlic sausage', [pork, of('garlic-powder', 0.1)]],
    ['Chicken liver sausage', [of('chicken-thigh', 8), of('chicken-liver', 2)]],
  ] as [string, Item[]][])('%s with it is not', (name, items) => {
    expect(stopped(name, items)).toBeUndefined()
  })
  it('named for the flavour alone are asked about', () => {
    expect(asked('Apple flavour pork link')).toMatch(/apple/)
    expect(stopped('Apple flavour pork link')).toBeUndefined()
  })
})

describe('what a name says it is free of', () => {
  it.each([
    ['Gluten-free pork and apple link', [pork, of('apple'), of('rusk')], /gluten/],
    ['Pork link, no gluten', [pork, of('wheat-flour')], /gluten/],
    ['Dairy free link', [pork, of('milk-powder-skimmed')], /dairy|milk/],
    ['Nitrite-free ring', [pork, cure], /nitrite/],
    ['Ring without preservatives', [pork, cure], /preservative/],
    ['Link with no additives', [pork, of('sodium-ascorbate', 0.01)], /additive/],
    ['Sugar free link', [pork, of('dextrose-monohydrate', 0.1)], /sugar/],
    ['No added water link', [pork, of('water')], /water/],
    ['Pork-free link', [pork], /pork/],
    ['Glutenfreie Bratwurst', [pork, of('rusk')], /gluten/],
    ['Saucisse sans gluten', [pork, of('rusk')], /gluten/],
    ['Uncured ring', [pork, cure], /uncured/],
  ] as [string, Item[], RegExp][])('%s is stopped where it holds it', (name, items, said) => {
    expect(stopped(name, items)).toMatch(said)
  })
  it.each([
    ['Pork sausage, gluten and dairy free', [pork, of('wheat-flour')], /gluten/],
    ['Gluten & dairy free pork sausage', [pork, of('wheat-flour')], /gluten/],
    ['Pork sausage free from dairy and gluten', [pork, of('wheat-flour')], /gluten/],
    ['Pork sausage, free from soya, mustard, gluten and milk', [pork, of('milk-powder-skimmed')], /dairy/],
    ['Saucisse de porc sans lait ni gluten', [pork, of('wheat-flour')], /gluten/],
    ['Schweinewurst, gluten- und laktosefrei', [pork, of('wheat-flour')], /gluten/],
    ['Salsiccia di maiale senza glutine', [pork, of('wheat-flour')], /gluten/],
    ['Salchicha de cerdo sin leche y gluten', [pork, of('wheat-flour')], /gluten/],
    ['GF pork sausage', [pork, of('wheat-flour')], /gluten/],
    ['Pork sausage G.F.', [pork, of('wheat-flour')], /gluten/],
    ['Coeliac-friendly pork sausage', [pork, of('wheat-flour')], /gluten/],
    ['Beef-free pork and beef sausage', [pork, of('beef-chuck', 5)], /free of beef/],
    ['Sausage without beef', [pork, of('beef-chuck', 6)], /free of beef/],
    ['Pepper-free pork sausage', [pork, of('black-pepper', 0.1)], /free of pepper/],
    ['Sausage without pork and beef', [of('chicken-thigh', 5), of('beef-chuck', 5)], /free of beef/],
  ] as [string, Item[], RegExp][])('%s is read to its end and held against what went in', (name, items, said) => {
    expect(stopped(name, items)).toMatch(said)
  })
  it.each([
    ['Pork sausage free from gluten, soya and milk', [pork]],
    ['Sausage, no nitrite, pork and beef link', [pork, of('beef-chuck', 5)]],
    ['Pork and mustard link, gluten free', [pork, of('mustard-prepared', 0.2)]],
    ['Pork and gluten-free link', [pork]],
    ['Gluten-free pork and leek link', [pork, of('leek')]],
    ['No gluten pork and leek link', [pork, of('leek')]],
  ] as [string, Item[]][])('%s that holds none of it is asked about, and no more', (name, items) => {
    expect(stopped(name, items)).toBeUndefined()
    expect(asked(name, items)).toMatch(/free of/)
  })
  it('says that nothing speaks against it of what it looked for alone', () => {
    expect(asked('Worry-free pork link')).not.toMatch(/says otherwise/)
    expect(asked('Beef-free pork link')).toMatch(/says otherwise/)
  })
  it('is asked about, with its document, where nothing in it says otherwise', () => {
    expect(asked('Gluten-free pork link')).toMatch(/gluten.*analysis|gluten.*document/i)
    expect(stopped('Gluten-free pork link')).toBeUndefined()
    expect(asked('Antibiotic free pork link')).toMatch(/antibiotic/)
  })
  it('is not read out of free range', () => {
    expect(stopped('Free range pork link')).toBeUndefined()
    expect(asked('Free range pork link')).toMatch(/free range/)
  })
})

describe('percents in a name', () => {
  it('may not be over what went in', () => {
    expect(stopped('95 % pork link', [pork, of('rusk', 2)])).toMatch(/95 % pork/)
    expect(stopped('95 percent pork link', [pork, of('rusk', 2)])).toMatch(/95 % pork/)
    expect(stopped('80% pork link', [pork, of('rusk', 2)])).toBeUndefined()
    expect(stopped('97 % meat link', [pork, of('rusk', 2)])).toMatch(/97 % meat/)
  })
  it('are asked about where they are of something else', () => {
    expect(asked('90 % lean pork link')).toMatch(/90 % lean/)
  })
})

describe('kinds in a name', () => {
  it.each([
    ['Dry cured salami', { kind: 'fresh' as const }],
    ['Salami', { kind: 'fresh' as const }],
    ['Cooked ham', { kind: 'cooked' as const, readyToEat: true }],
    ['Cooked link', { kind: 'fresh' as const }],
    ['Fermented stick', { kind: 'cooked' as const }],
    ['Fresh pork link', { kind: 'cooked' as const }],
    ['Ready to eat link', { kind: 'fresh' as const }],
    ['Smoked link', { kind: 'fresh' as const }],
    ['Cured ring', { kind: 'cooked' as const }],
    ...['Frankfurter', 'Hot Dogs', 'Wieners', 'Bologna', 'Pepperoni', 'Mortadella', 'Bresaola'].map(
      (n) => [n, { kind: 'fresh' as const }] as const,
    ),
    // Named after a town: any word that ends like it (9 CFR 319.182).
    ['Townschweiger', { kind: 'fresh' as const }],
    ['Coppa', { kind: 'fresh' as const }],
    ['Serrano', { kind: 'fresh' as const }],
  ] as const)('%s of what is not so is stopped', (name, product) => {
    expect(stopped(name, [pork, salt], 'EU', product)).toBeDefined()
  })
  it.each([
    ['Salami', { kind: 'dried' as const }, [pork, cure]],
    ['Cured ring', { kind: 'cooked' as const }, [pork, cure]],
    ['Fresh garlic ring', { kind: 'cooked' as const }, [pork, of('garlic', 0.1)]],
    ['Cooked ham', { kind: 'cooked' as const }, [of('pork-leg-lean', 10), cure]],
    ['Smoked link', { kind: 'cooked' as const, smoked: true }, [pork]],
    ['Frankfurter', { kind: 'cooked' as const, smoked: true }, [pork, cure]],
    ['Wiener', { kind: 'cooked' as const }, [pork, of('beef-chuck', 4), cure]],
    ['Mortadella', { kind: 'cooked' as const }, [pork, cure]],
    ['Pepperoni', { kind: 'fermented' as const }, [pork, cure]],
    ['Coppa', { kind: 'dried' as const }, [pork, cure]],
    ['Pork link with serrano chillies', { kind: 'fresh' as const }, [pork, of('chilli-cayenne', 0.1)]],
  ])('%s of what is so is not', (name, product, items) => {
    expect(stopped(name, items, 'EU', product)).toBeUndefined()
  })
})

it('Hamburger without beef, and Bresaola of pork, are asked about', () => {
  expect(asked('Hamburger', [pork, salt], 'GB')).toMatch(/hamburger.*no beef/)
  expect(asked('Hamburger', [of('beef-chuck', 10), salt], 'GB')).toBeUndefined()
  expect(asked('Bresaola', [pork, salt], 'EU', { kind: 'dried' })).toMatch(/bresaola.*no beef/)
})

describe('diet, faith and farming in a name', () => {
  it.each([
    ['Vegetarian link', /vegetarian/],
    ['Vegan link', /vegan/],
    ['Halal pork link', /halal/],
    ['Kosher link', /kosher/],
    ['Meat-free link', /meat/],
  ])('%s of pork is stopped', (name, said) => {
    expect(stopped(name)).toMatch(said)
  })
  it.each([
    ['Halal beef link', /halal.*certificat/],
    ['Organic beef link', /organic.*certificat/],
    ['Bio-Rinderwurst', /organic/],
  ])('%s is asked for its document', (name, said) => {
    expect(asked(name, [of('beef-chuck', 10), salt])).toMatch(said)
    expect(stopped(name, [of('beef-chuck', 10), salt])).toBeUndefined()
  })
  it('is read in every language of the label', () => {
    const languages = [{ language: 'en' as const }, { language: 'de' as const, name: 'Geflügelwurst, glutenfrei' }]
    expect(stopped('Pork link', [pork, of('rusk')], 'EU', {}, { languages })).toMatch(
      /poultry.*gluten|gluten.*poultry/s,
    )
  })
})

it('Nitrite-free halal organic link of nitrite and pork is stopped for what it holds and asked for the rest', () => {
  expect(stopped('Nitrite-free halal organic link', [pork, cure])).toMatch(/nitrite/)
  expect(asked('Nitrite-free halal organic link', [pork, cure])).toMatch(/organic/)
})
it.each(['Black Horse', 'Old Stag', 'Lamb & Flag', 'Boar Lane', 'Orange Lane', 'Mustard Field Farm', 'Sage & Co.'])(
  '%s pork sausage is asked about as the name of a house, not stopped',
  (house) => {
    expect(stopped(`${house} pork sausage`)).toBeUndefined()
    expect(asked(`${house} pork sausage`)).toMatch(/proper name|reads as the name/)
    expect(stopped(`${house} chicken sausage`)).toMatch(/chicken/)
  },
)
it('a plain name asks for nothing', () => {
  for (const name of ['Lane link', 'Fenwick pork link', 'Farmhouse sausage', 'Breakfast link', 'Bratwurst'])
    expect(blocks(name, [pork, salt])).toEqual([])
})
