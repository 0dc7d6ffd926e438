import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { recipeSchema } from '../../src/recipe/schema.ts'
import { parseRecipe } from '../../src/recipe/text/parse.ts'
import { printRecipe } from '../../src/recipe/text/print.ts'
import { anyRecipe, fieldsIn, fieldsOfSchema, fullRecipe } from './any-recipe.ts'

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

  it('loses no field of the schema: a recipe that has them all comes back with them all', () => {
    fc.assert(
      fc.property(fullRecipe, (recipe) => {
        fc.pre(recipeSchema.safeParse(recipe).success)
        const read = parseRecipe(printRecipe(recipe))
        expect(read).toEqual(recipe)
        expect([...new Set(fieldsIn(read))].toSorted()).toEqual(fieldsOfSchema().toSorted())
      }),
      { numRuns: 100, seed: 20261125 },
    )
  })

  it('reads a fermentation and a drying with their stages, in the units they are written in', () => {
    const r = parseRecipe(
      `${written}ferment stage: for 1 d 12 h; at 75.2 °F; humidity 92 %
ferment: to pH 5.2; from pH 5.8; culture "starter of lactic acid bacteria, 25 g per 100 kg"
ferment stage: for 24; at 20
dry: loss 35 %; for 4 weeks; water activity 0.9; moisture to protein 1.9
dry stage: for 10 days; at 59 °F; humidity 85 %; air 0.2 m/s
`.replace('4 weeks', '28 d'),
    )
    expect(r.ferment).toEqual({
      targetPh: 5.2,
      startPh: 5.8,
      culture: 'starter of lactic acid bacteria, 25 g per 100 kg',
      stages: [
        { hours: 36, tempC: expect.closeTo(24, 9) as number, rhPct: 92 },
        { hours: 24, tempC: 20 },
      ],
    })
    expect(r.dry).toEqual({
      lossPct: 35,
      days: 28,
      targetAw: 0.9,
      targetMoistureToProtein: 1.9,
      stages: [{ days: 10, tempC: expect.closeTo(15, 9) as number, rhPct: 85, airSpeedMPerS: 0.2 }],
    })
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
    [`${written}ferment: to pH sour`, 'line 14', /to pH: .*not a number/],
    [`${written}ferment: to pH 5.2; to pH 5.0`, 'line 14', /to pH a second time/],
    [`${written}ferment: to pH 3`, 'ferment.targetPh', /at least 3.8/],
    [`${written}ferment stage: for 24 hours; at 24 °C`, 'ferment.targetPh', /allowed/],
    [`${written}dry: loss 30 %; at 15 °C`, 'line 14', /allowed: loss, for, water activity, moisture to protein/],
    [`${written}dry stage: for 10 kg; at 15 °C; humidity 80 %`, 'line 14', /for: /],
    [`${written}dry: loss 30 %\ndry stage: for 10 days; at 15 °C`, 'dry.stages[0].rhPct', /allowed/],
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
