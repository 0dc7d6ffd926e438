import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { recipeSchema, type Recipe } from '../../src/recipe/schema.ts'
import { parseRecipe } from '../../src/recipe/text/parse.ts'
import { printRecipe } from '../../src/recipe/text/print.ts'

const words = (max: number) =>
  fc.string({ minLength: 1, maxLength: max, unit: 'grapheme' }).filter((s) => s.length <= max)
const figure = (min: number, max: number) => fc.double({ min, max, noNaN: true }).map((x) => (x === 0 ? 0 : x))
const share = (max: number) => figure(0, max)
const optional = <T>(shape: { [K in keyof T]: fc.Arbitrary<T[K]> }, requiredKeys: (keyof T)[]) =>
  fc.record(shape, { requiredKeys })
const some = <T>(item: fc.Arbitrary<T>) => fc.array(item, { minLength: 1, maxLength: 4 })

const anyRecipe: fc.Arbitrary<Recipe> = fc
  .record(
    {
      name: words(120),
      kind: fc.constantFrom('fresh', 'cooked', 'fermented', 'dried'),
      smoked: fc.boolean(),
      readyToEat: fc.boolean(),
      route: fc.constantFrom('comminuted', 'pumped', 'immersed', 'dry-rubbed'),
      standards: some(words(80)),
      meat: fc.constant([]),
      first: fc.record({ material: words(60), note: words(200) }, { requiredKeys: ['material'] }),
      rest: fc.record({ material: words(60), share: share(100), low: share(50), high: figure(50, 100) }),
      additions: fc.array(optional({ material: words(60), pct: share(1000), note: words(200) }, ['material', 'pct']), {
        maxLength: 5,
      }),
      limits: some(optional({ of: words(60), minPct: share(20), maxPct: figure(20, 100) }, ['of'])),
      nitriteTarget: fc.record({ lowPpm: share(100), highPpm: figure(100, 200) }),
      casing: optional(
        { casing: words(80), calibreMm: figure(10, 120), kgPerM: figure(0.01, 50), linkG: figure(1, 5000) },
        ['calibreMm'],
      ),
      cook: optional(
        {
          targetCoreC: figure(-20, 100),
          holdMinutes: share(1000),
          lossPct: share(90),
          stages: some(
            optional(
              {
                medium: fc.constantFrom('air', 'water', 'steam', 'ice-water'),
                tempC: figure(-20, 120),
                rhPct: share(100),
                minutes: share(500),
                untilCoreC: figure(0, 90),
              },
              ['medium', 'tempC'],
            ),
          ),
        },
        ['targetCoreC'],
      ),
      dry: optional({ lossPct: share(60), days: share(500) }, ['lossPct']),
      steps: some(words(400)),
      note: words(2000),
    },
    { requiredKeys: ['name', 'kind', 'smoked', 'readyToEat', 'first', 'rest', 'additions'] },
  )
  .map(({ first, rest, meat: _none, ...more }) => ({
    ...more,
    meat: [
      { ...first, pct: 100 - rest.share },
      { material: rest.material, pct: rest.share, minPct: rest.low, maxPct: rest.high },
    ],
  })) as fc.Arbitrary<Recipe>

const written = `forcemeat-recipe: 1
# a comment
name: Ring
kind: cooked
smoked: yes
ready to eat: yes
meat: 70 % pork-butt; at least 40 %; at most 90 %
meat: 30 % pork-belly; note "from the rib; lean side"
addition: 1.6 % salt
casing: 32 mm; kind hog; link 4 oz
cook: core 152 °F; hold 1 h 30 min; loss 8 %
stage: air; at 130 °F; humidity 40 %; for 60 min
step: Grind; mix.
`.replace('step: Grind; mix.', 'step: "Grind; mix."')

describe('the text format of a recipe', () => {
  it('gives back every recipe that it was written from (round trip)', () => {
    fc.assert(
      fc.property(anyRecipe, (recipe) => {
        fc.pre(recipeSchema.safeParse(recipe).success)
        expect(parseRecipe(printRecipe(recipe))).toEqual(recipe)
      }),
      { numRuns: 400, seed: 20261125 },
    )
  })

  it('is the same text after a second round', () => {
    const text = printRecipe(parseRecipe(written))
    expect(printRecipe(parseRecipe(text))).toBe(text)
  })

  it('takes ounces and °F where a quantity is written with its unit (1 oz = 28.349523125 g, exactly)', () => {
    const r = parseRecipe(written)
    expect(r.casing!.linkG).toBeCloseTo(4 * 28.349523125, 9)
    expect(r.cook!.targetCoreC).toBeCloseTo((152 - 32) / 1.8, 9)
    expect(r.cook!.holdMinutes).toBe(90)
    expect(r.cook!.stages![0]).toMatchObject({ medium: 'air', rhPct: 40, minutes: 60 })
    expect(r.cook!.stages![0]!.tempC).toBeCloseTo((130 - 32) / 1.8, 9)
    expect(r.meat[0]).toEqual({ material: 'pork-butt', pct: 70, minPct: 40, maxPct: 90 })
    expect(r.steps).toEqual(['Grind; mix.'])
  })

  it.each([
    ['name: Ring', 'line 1', /first line forcemeat-recipe: 1/],
    ['forcemeat-recipe: 2', 'line 1', /first line forcemeat-recipe: 1/],
    [written.replace('1.6 % salt', 'much salt'), 'line 9', /percent of the meat block/],
    [written.replace('smoked: yes', 'smoked: perhaps'), 'line 5', /yes or no/],
    [written.replace('hold 1 h 30 min', 'hold long'), 'line 11', /hold:/],
    [written.replace('32 mm', '32 kg'), 'line 10', /kg/],
    [`${written}secret: 1`, 'line 14', /allowed: a key of/],
    [`${written}constructor: 1`, 'line 14', /allowed: a key of/],
    [`${written}name: Again`, 'line 14', /second time/],
    [written.replace('at most 90 %', 'at most 90 %; at most 80 %'), 'line 7', /second time/],
    [written.replace('70 % pork-butt', '60 % pork-butt'), 'meat', /adds up to 90 %/],
    [written.replace('1.6 % salt', '1e12 % salt'), 'additions[0].pct', /at most 1000/],
  ])('names the line that cannot be read: %#', (text, path, message) => {
    expect(() => parseRecipe(text)).toThrow(message)
    try {
      parseRecipe(text)
    } catch (error) {
      expect((error as { faults: { path: string }[] }).faults[0]!.path).toBe(path)
    }
  })
})
