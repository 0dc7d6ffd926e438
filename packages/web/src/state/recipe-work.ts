import { InvalidInput, parseOrThrow, type Fault } from '@forcemeat/craft/calculation'
import type { RecipeComputed } from '@forcemeat/craft/recipe/compute-schema'
import type { Recipe } from '@forcemeat/craft/recipe/schema'
import { stuffConditions } from '@forcemeat/craft/recipe/work/casing-of'
import { costConditions } from '@forcemeat/craft/recipe/work/cost-of'
import { iceConditions } from '@forcemeat/craft/recipe/work/ice-of'
import { workOfRecipe, type RecipeWork } from '@forcemeat/craft/recipe/work/work'
import type { z } from 'zod'
import type { Values } from './form.ts'
import { compact, readerOf, type Reader } from './reader.ts'
import type { Price } from './recipe-bench.ts'

/** Conditions of the bench that belong to no recipe: kept in the form, never saved with a version. */
export const benchTexts: Values = {
  'bench.meatKg': '10 kg',
  'bench.size.way': 'meatKg',
  'bench.spoon.spoon': 'tsp',
  'bench.ice.meatC': '2 °C',
  'bench.ice.waterC': '12 °C',
  'bench.ice.targetC': '8 °C',
}

export type WorkOf = { readonly faults: readonly Fault[]; readonly work?: RecipeWork }

const at = (group: string, field: string): string => `bench.${group}.${field}`

function iceAsked(r: Reader): unknown {
  const celsius = (field: string) => r.quantity(at('ice', field), 'temperature')
  const { meatC, waterC, targetC, ...rest } = compact({
    meatC: celsius('meatC'),
    waterC: celsius('waterC'),
    targetC: celsius('targetC'),
    iceC: celsius('iceC'),
    workKjPerKg: r.number(at('ice', 'workKjPerKg')),
  })
  // Without the three temperatures there is nothing to ask yet.
  return meatC === undefined || waterC === undefined || targetC === undefined
    ? undefined
    : { meatC, waterC, targetC, ...rest }
}

const stuffAsked = (r: Reader, values: Values): unknown =>
  compact({
    kind: values[at('stuff', 'kind')] || undefined,
    pieceM: r.number(at('stuff', 'pieceM')),
    packNetG: r.quantity(at('stuff', 'packNetG'), 'mass', { unit: 'g', as: 'g' }),
    linksPerPack: r.number(at('stuff', 'linksPerPack')),
  })

function costAsked(r: Reader, sellsAt: number | undefined): unknown {
  const number = (field: string) => r.number(at('cost', field))
  const [minutes, people, ratePerHour] = [number('minutes'), number('people'), number('ratePerHour')]
  const { overheadPct, otherCost, ...plain } = compact({
    otherCost: number('otherCost'),
    overheadPct: number('overheadPct'),
    casingPerM: number('casingPerM'),
    packCostEach: number('packCostEach'),
    packPriceEach: number('packPriceEach'),
    stuffingLossPct: r.quantity(at('cost', 'stuffingLossPct'), 'percent'),
    trimLossPct: r.quantity(at('cost', 'trimLossPct'), 'percent'),
  })
  if (minutes !== undefined && ratePerHour === undefined)
    r.fault(at('cost', 'ratePerHour'), 'is empty, and minutes are given; allowed: what an hour costs, 0 if nothing')
  return {
    ...plain,
    ...(sellsAt === undefined ? {} : { pricePerKg: sellsAt }),
    ...(minutes === undefined || ratePerHour === undefined
      ? {}
      : { labour: [{ task: 'Labour', minutes, ratePerHour, ...compact({ people }) }] }),
    ...(otherCost === undefined ? {} : { other: [{ name: 'Other', cost: otherCost }] }),
    ...(overheadPct === undefined ? {} : { overhead: { pctOfDirect: overheadPct } }),
  }
}

/** Where a fault of the conditions shows: the field it was typed in. */
const fields: Readonly<Record<string, string>> = {
  'labour[0].minutes': 'minutes',
  'labour[0].people': 'people',
  'labour[0].ratePerHour': 'ratePerHour',
  'other[0].cost': 'otherCost',
  'overhead.pctOfDirect': 'overheadPct',
}

/** Read one group's conditions; faults land on its fields. */
function held<T>(group: string, schema: z.ZodType<T>, asked: unknown, faults: Fault[]): T | undefined {
  if (asked === undefined) return undefined
  try {
    return parseOrThrow(schema, asked)
  } catch (error) {
    if (!(error instanceof InvalidInput)) throw error
    faults.push(...error.faults.map((f) => ({ ...f, path: at(group, fields[f.path] ?? f.path) })))
    return undefined
  }
}

/** Ice, casing and cost of the recipe on the bench, under the conditions typed; `sellsAt` is the price of a kg in force, where one is. */
export function workOf(
  values: Values,
  recipe: Recipe,
  computed: RecipeComputed,
  prices: readonly Price[],
  sellsAt?: number,
): WorkOf {
  const reader = readerOf(values)
  const asked = { ice: iceAsked(reader), stuff: stuffAsked(reader, values), cost: costAsked(reader, sellsAt) }
  const faults = [...reader.faults]
  const ice = held('ice', iceConditions, asked.ice, faults)
  const stuff = held('stuff', stuffConditions, asked.stuff, faults)
  const cost = held('cost', costConditions, asked.cost, faults)
  const input = { recipe, meatKg: computed.totals.meatKg, prices: [...prices], ...compact({ ice, stuff, cost }) }
  try {
    return { faults, work: workOfRecipe(input, computed) }
  } catch (error) {
    if (!(error instanceof InvalidInput)) throw error
    return { faults: [...faults, ...error.faults] }
  }
}
