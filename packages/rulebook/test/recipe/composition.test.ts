import { addedWater } from '@forcemeat/craft/recipe/added-water'
import { describe, expect, it } from 'vitest'
import { judgeRecipe } from '../../src/recipe/judge-recipe.ts'
import { recipeFacts } from '../../src/recipe/facts.ts'

const judge = (
  jurisdiction: string,
  standard: string,
  figures: Record<string, number>,
  species: readonly string[] = ['pork'],
  kind = 'fresh',
  more: Record<string, boolean> = {},
) =>
  judgeRecipe({
    facts: {
      ...recipeFacts({ kind, smoked: false, readyToEat: false, route: 'comminuted', standards: [standard] }, species),
      ...more,
    },
    measures: Object.fromEntries(
      Object.entries({ nitritePpm: 0, nitratePpm: 0, ...figures }).map(([k, value]) => [k, { value }]),
    ),
    on: '2026-01-01',
    jurisdictions: [jurisdiction],
  })
const verdict = (found: ReturnType<typeof judge>, rule: string) => found.find((f) => f.rule === rule)?.verdict

describe('US standards of identity, 9 CFR 319, both sides of each limit', () => {
  it.each([
    ['us.319.141', 'fatPct', 'us.319.141.fat', 50],
    ['us.319.142', 'fatPct', 'us.319.142.fat', 30],
    ['us.319.143', 'fatPct', 'us.319.143.fat', 50],
    ['us.319.144', 'fatPct', 'us.319.144.fat', 50],
    ['us.319.145', 'fatPct', 'us.319.145.fat', 35],
    ['us.319.160', 'fatPct', 'us.319.160.fat', 50],
    ['us.319.180.a', 'fatPct', 'us.319.180.a.fat', 30],
    ['us.319.180.b', 'fatPct', 'us.319.180.b.fat', 30],
    ['us.319.140.uncooked', 'formulaWaterPct', 'us.319.140.water', 3],
    ['us.319.141', 'formulaWaterPct', 'us.319.141.water', 3],
    ['us.319.260', 'formulaWaterPct', 'us.319.260.water', 3],
    ['us.319.140.cooked', 'addedWaterPct', 'us.319.140.added-water', 10],
    ['us.319.182.a', 'addedWaterPct', 'us.319.182.a.added-water', 10],
    ['us.319.180.a', 'poultryPct', 'us.319.180.a.poultry', 15],
  ])('%s: %s at most the figure of %s, %f', (standard, measure, rule, max) => {
    expect(verdict(judge('US', standard, { [measure]: max }), rule)).toBe('pass')
    expect(verdict(judge('US', standard, { [measure]: max + 0.1 }), rule)).toBe('fail')
  })

  it.each([
    ['us.319.145', 'meatAndFatPct', 'us.319.145.meat', 85],
    ['us.319.180.b', 'skeletalMeatPct', 'us.319.180.b.muscle', 15],
    ['us.319.182.a', 'liverPct', 'us.319.182.a.liver', 30],
    ['us.319.182.b', 'liverPct', 'us.319.182.b.liver', 30],
  ])('%s: %s at least the figure of %s, %f', (standard, measure, rule, min) => {
    expect(verdict(judge('US', standard, { [measure]: min }), rule)).toBe('pass')
    expect(verdict(judge('US', standard, { [measure]: min - 0.1 }), rule)).toBe('fail')
  })

  it.each([
    [28, 12, 'pass', 'pass'],
    [28, 12.1, 'pass', 'fail'],
    [30.1, 0, 'fail', 'pass'],
  ])('frankfurter, 319.180(a): fat %f with added water %f', (fatPct, addedWaterPct, fat, sum) => {
    const found = judge('US', 'us.319.180.a', { fatPct, addedWaterPct })
    expect(verdict(found, 'us.319.180.a.fat')).toBe(fat)
    expect(verdict(found, 'us.319.180.a.fat-and-water')).toBe(sum)
  })

  it('cooked sausage at 58 % water and 12 % protein sits on the limit of 10 % added water (318.22, 319.140)', () => {
    const { addedWaterPct } = addedWater({ waterPct: 58, proteinPct: 12 })
    expect(verdict(judge('US', 'us.319.140.cooked', { addedWaterPct }), 'us.319.140.added-water')).toBe('pass')
    const over = addedWater({ waterPct: 58.1, proteinPct: 12 }).addedWaterPct
    expect(verdict(judge('US', 'us.319.140.cooked', { addedWaterPct: over }), 'us.319.140.added-water')).toBe('fail')
  })

  it('3 kg of water in 100 kg of fresh sausage passes; 3.1 kg on 97 kg of the rest (3.097 %) fails', () => {
    expect(verdict(judge('US', 'us.319.141', { formulaWaterPct: 3 }), 'us.319.141.water')).toBe('pass')
    expect(verdict(judge('US', 'us.319.141', { formulaWaterPct: (3.1 / 100.1) * 100 }), 'us.319.141.water')).toBe(
      'fail',
    )
  })

  it('FAO inspector training, fresh goat sausage: 15 lb water in 460 lb (3.26 %) fails; 214.8 lb fat (46.7 %) passes 50', () => {
    const found = judge('US', 'us.319.143', { formulaWaterPct: (15 / 460) * 100, fatPct: (214.8 / 460) * 100 }, [
      'goat',
    ])
    expect(verdict(found, 'us.319.143.water')).toBe('fail')
    expect(verdict(found, 'us.319.143.fat')).toBe('pass')
  })

  it('binders (424.21(c)): 3.5 % ordinary, 2 % isolated soy; 1 % isolated soy leaves 1.75 % ordinary', () => {
    const at = (binderPct: number, strongBinderPct: number, rule = 'us.424.21.binders') =>
      verdict(judge('US', 'us.319.143', { binderPct, strongBinderPct }), rule)
    expect(at((7 / 200) * 100, 0)).toBe('pass')
    expect(at(3.6, 0)).toBe('fail')
    expect(at(2, (4 / 200) * 100, 'us.424.21.binders.strong')).toBe('pass')
    expect(at(2.1, 2.1, 'us.424.21.binders.strong')).toBe('fail')
    expect(at(2.75, 1)).toBe('pass')
    expect(at(2.76, 1)).toBe('fail')
  })

  it('no binders in Italian sausage (319.145), no phosphate in uncooked sausage (319.140), 0.5 % in cooked', () => {
    expect(verdict(judge('US', 'us.319.145', { binderPct: 1, strongBinderPct: 0 }), 'us.319.145.binders')).toBe('fail')
    expect(verdict(judge('US', 'us.319.140.uncooked', { phosphatePct: 0.3 }), 'us.319.140.phosphate')).toBe('fail')
    const cooked = (phosphatePct: number) =>
      verdict(judge('US', 'us.319.140.cooked', { phosphatePct }, ['pork'], 'cooked'), 'us.424.21.phosphate')
    expect(cooked(0.5)).toBe('pass')
    expect(cooked(0.51)).toBe('fail')
  })

  it('antioxidants: 0.01 % of the fat each and 0.02 % together in fresh sausage (424.21(c))', () => {
    const found = judge('US', 'us.319.141', { antioxidantOfFatPct: 0.01, antioxidantsOfFatPct: 0.021 })
    expect(verdict(found, 'us.424.21.antioxidant.fresh')).toBe('pass')
    expect(verdict(found, 'us.424.21.antioxidant.fresh.together')).toBe('fail')
  })

  it('says nothing of a standard the recipe is not sold under', () => {
    expect(judge('US', 'us.319.141', { fatPct: 45 }).some((f) => f.rule.startsWith('us.319.145'))).toBe(false)
  })
})

describe('measures that follow from others', () => {
  it('binders of an unknown kind: 2 % passes whatever they are, 3 % cannot be told, 3.6 % fails', () => {
    const at = (binderPct: number) => verdict(judge('US', 'us.319.143', { binderPct }), 'us.424.21.binders')
    expect([at(2), at(3), at(3.6)]).toEqual(['pass', 'cannot-tell', 'fail'])
    const unsure = judge('US', 'us.319.143', { binderPct: 3 }).find((f) => f.rule === 'us.424.21.binders')
    expect(unsure?.settle).toMatch(/how much of the binder is isolated soy/)
  })

  it('poultry of a frankfurter from the shares of the meat block: 20 kg chicken of 100 kg meat, 30 kg water in 140 kg is 18.2 %', () => {
    const found = judge('US', 'us.319.180.a', {
      'species:porkPct': 80,
      'species:chickenPct': 20,
      meatPct: (100 / 140) * 100,
      formulaWaterPct: (30 / 140) * 100,
    })
    expect(found.find((f) => f.rule === 'us.319.180.a.poultry')).toMatchObject({ verdict: 'fail' })
    expect(found.find((f) => f.rule === 'us.319.180.a.poultry')!.measured).toBeCloseTo((20 / 110) * 100, 9)
  })

  it('meat weighed in is the most that can be declared: under the minimum it fails, over it nobody can tell yet', () => {
    const at = (meatPct: number) =>
      verdict(judge('GB', 'gb.3001.pork-sausage', { meatPct }), 'gb.3001.pork-sausage.pig')
    expect([at(41.9), at(60)]).toEqual(['fail', 'cannot-tell'])
  })

  it('Italian sausage is judged on the fat of the mix before cooking', () => {
    expect(verdict(judge('US', 'us.319.145', { fatPct: 40, rawFatPct: 34 }), 'us.319.145.fat')).toBe('pass')
  })
})

describe('reserved names in Great Britain, SI 2014/3001 Schedule 1, both sides', () => {
  it.each([
    ['gb.3001.pork-sausage', ['pork'], 'pig', 42],
    ['gb.3001.sausage', ['pork'], 'pig', 32],
    ['gb.3001.sausage', ['chicken', 'turkey'], 'bird', 26],
    ['gb.3001.sausage', ['beef'], 'other', 30],
    ['gb.3001.sausage', ['beef', 'pork'], 'other', 30],
    ['gb.3001.burger', ['beef'], 'other', 62],
    ['gb.3001.burger', ['pork'], 'pig', 67],
    ['gb.3001.burger', ['chicken'], 'bird', 55],
    ['gb.3001.economy-burger', ['beef'], 'other', 47],
    ['gb.3001.hamburger', ['beef'], 'other', 62],
    ['gb.3001.luncheon', ['pork'], 'pig', 67],
    ['gb.3001.chopped', ['pork'], 'pig', 75],
    ['gb.3001.sausage-roll', ['pork'], 'pig', 6],
  ])('%s of %o: meat kind %s, at least %i %', (standard, species, kind, min) => {
    expect(verdict(judge('GB', standard, { declaredMeatPct: min }, species), `${standard}.${kind}`)).toBe('pass')
    expect(verdict(judge('GB', standard, { declaredMeatPct: min - 0.1 }, species), `${standard}.${kind}`)).toBe('fail')
  })

  it('49.87 % beef passes as beef sausage (30) and economy burger (47), fails as burger (62)', () => {
    const at = (standard: string) =>
      verdict(judge('GB', standard, { declaredMeatPct: 49.87 }, ['beef']), `${standard}.other`)
    expect([at('gb.3001.sausage'), at('gb.3001.economy-burger'), at('gb.3001.burger')]).toEqual([
      'pass',
      'pass',
      'fail',
    ])
  })

  it('asks for the species where they are not given', () => {
    expect(
      judge('GB', 'gb.3001.sausage', { declaredMeatPct: 40 }, []).find((f) => f.rule === 'gb.3001.sausage.pig')
        ?.because,
    ).toMatch(/species of the meat/)
  })
})

describe('elsewhere', () => {
  it('AU-NZ Standard 2.2.1: fat-free meat 55 % with fat 27 % (491 g/kg of it) passes, 28 % (509) fails', () => {
    const at = (fatPct: number) =>
      verdict(judge('AU-NZ', 'anz.2.2.1.sausage', { fatFreeMeatPct: 55, fatPct }), 'anz.2.2.1.sausage.fat')
    expect([at(27), at(27.5), at(28)]).toEqual(['pass', 'pass', 'fail'])
    expect(
      verdict(judge('AU-NZ', 'anz.2.2.1.sausage', { fatFreeMeatPct: 49.9, fatPct: 20 }), 'anz.2.2.1.sausage.meat'),
    ).toBe('fail')
  })

  it('Canada: 9.2 % protein of which 1.9 % is not meat (7.3 %) lies under the 7.5 % from memory: cannot tell, with the figures', () => {
    const found = judge('CA', 'ca.b14.sausage.fresh', { proteinPct: 9.2, meatProteinPct: 7.3 }).find(
      (f) => f.rule === 'ca.b14.sausage.fresh.meat-protein',
    )
    expect(found).toMatchObject({ verdict: 'cannot-tell', because: expect.stringMatching(/7\.3 %.*at least 7\.5 %/) })
  })

  it('5 g/kg of tripolyphosphate: 2.894 g/kg as P2O5 passes the EU 5 000 mg/kg, 0.579 % as disodium phosphate fails the Canadian 0.5 %', () => {
    expect(verdict(judge('EU', '', { phosphateP2O5Ppm: 2894 }, ['pork'], 'cooked'), 'eu.1333.phosphate')).toBe('pass')
    expect(verdict(judge('CA', '', { phosphateAsDisodiumPct: 0.579 }, ['pork'], 'cooked'), 'ca.b14.phosphate')).toBe(
      'fail',
    )
  })

  it('EU 500 mg/kg of erythorbic acid: 562.4 mg/kg of the sodium salt is 500.0 of acid', () => {
    const at = (erythorbatePpm: number) =>
      verdict(judge('EU', '', { nitritePpm: 80, erythorbatePpm }, ['pork'], 'cooked'), 'eu.1333.erythorbate')
    expect([at(562), at(563)]).toEqual(['pass', 'fail'])
  })

  it('minced pure beef: fat 20 %, collagen 15 % of protein', () => {
    const found = judge('EU', 'eu.1169.minced.beef', { fatPct: 20, collagenOfProteinPct: 15.1 }, ['beef'])
    expect(verdict(found, 'eu.1169.minced.beef.fat')).toBe('pass')
    expect(verdict(found, 'eu.1169.minced.beef.collagen')).toBe('fail')
  })
})
