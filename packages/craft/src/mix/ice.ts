import { z } from 'zod'
import { findingSchema, workingSchema, type WorkingStep } from '../finding.ts'
import { judge } from '../rules.ts'
import { thermalComposition } from '../heat/properties.ts'
import { list, massKg, massKgOrNone, oneOf, quantity } from '../schema.ts'
import {
  enthalpy,
  food,
  frozenShare,
  FUSION_KJ,
  fusionAt,
  iceSensible,
  NEVER_FREEZES_C,
  SALT,
  STEAM_C,
  WATER_CP,
  type Food,
} from './enthalpy.ts'

/** Room temperature a sack of salt is taken to have. */
const SALT_TEMP_C = 20
/** The other case shown: meat this much warmer than entered. */
const WARMER_C = 2

export const iceInput = z.strictObject({
  parts: list(
    z.strictObject({ kg: massKg(), tempC: quantity('°C', { min: -40, max: 60 }), composition: thermalComposition() }),
    { min: 1, max: 60 },
  ),
  /** Water of the recipe, whether it goes in as water or as ice. */
  waterKg: massKgOrNone(),
  waterTempC: quantity('°C', { min: 0, max: 90 }),
  targetC: quantity('°C', { min: -10, max: 60 }),
  /** Heat of the knives and the motor that stays in the mix. */
  workKj: quantity('kJ', { min: 0, max: 1e9 }).optional(),
  /** Temperature of the ice; 0 °C (wet flake) unless said, which asks for the most ice. */
  iceTempC: quantity('°C', { min: -40, max: 0 }).optional(),
  /** Salt of the recipe: lowers the freezing point and takes up heat as it dissolves. */
  saltKg: massKgOrNone().optional(),
  /** Kind of sausage, for what the trade keeps the final temperature to. */
  kind: oneOf(['fresh', 'cooked', 'fermented', 'dried']).optional(),
})
export type IceInput = z.infer<typeof iceInput>
/** What the rulebook is asked of a mix: how warm it ends, and with the meat 2 °C warmer. */
export type MixQuestion = {
  readonly kind: NonNullable<IceInput['kind']>
  readonly finalC: number
  readonly warmerC: number
}

export const iceOutput = z.strictObject({
  iceKg: z.number(),
  /** What is left of the water to add as water. */
  waterKg: z.number(),
  finalC: z.number(),
  possible: z.boolean(),
  because: z.string(),
  /** Where ice begins to stay in the finished mix. */
  freezingC: z.number(),
  /** Ice left in the mix at the end. */
  frozenKg: z.number(),
  /** The same with the meat 2 °C warmer. */
  ifMeatWarmer: z.strictObject({ byC: z.number(), iceKg: z.number(), finalC: z.number(), possible: z.boolean() }),
  /** Heat taken in less heat given off, kJ: nothing but float noise. */
  residualKj: z.number(),
  /** Advice on the final temperature, where the kind is given. */
  findings: z.array(findingSchema),
  working: workingSchema,
})
export type IceOutput = z.infer<typeof iceOutput>

type Mix = {
  readonly parts: readonly { readonly kg: number; readonly tempC: number; readonly food: Food }[]
  readonly waterKg: number
  readonly waterTempC: number
  readonly iceTempC: number
  readonly saltKg: number
  readonly workKj: number
  readonly freezingC: number
  readonly freezableKg: number
}

function prepare(input: IceInput, warmerC = 0): Mix {
  const parts = input.parts.map((p) => ({ kg: p.kg, tempC: p.tempC + warmerC, food: food(p.composition) }))
  const sum = (of: (p: (typeof parts)[number]) => number) => parts.reduce((s, p) => s + p.kg * of(p), 0)
  const meatWater = sum((p) => p.food.water)
  const water = meatWater + input.waterKg
  const saltKg = input.saltKg ?? 0
  // Solutes of the meat are diluted by the added water; depressions of meat and salt add up.
  const own = water > 0 ? sum((p) => p.food.water * p.food.freezingC) / water : 0
  const brine = water > 0 ? (SALT.depression * saltKg) / SALT.molarKg / water : 0
  return {
    parts,
    waterKg: input.waterKg,
    waterTempC: input.waterTempC,
    iceTempC: input.iceTempC ?? 0,
    saltKg,
    workKj: input.workKj ?? 0,
    freezingC: Math.max(NEVER_FREEZES_C, own - brine),
    freezableKg: sum((p) => p.food.freezable) + input.waterKg,
  }
}

/** Enthalpy of everything before mixing with `iceKg` of the water as ice, work included, kJ. */
const before = (mix: Mix, iceKg: number): number =>
  mix.parts.reduce((s, p) => s + p.kg * enthalpy(p.food, p.tempC), 0) +
  (mix.waterKg - iceKg) * WATER_CP * mix.waterTempC +
  iceKg * (iceSensible(mix.iceTempC) - FUSION_KJ) +
  mix.saltKg * (SALT.cp * SALT_TEMP_C - SALT.solutionKj) +
  mix.workKj

const frozenKg = (mix: Mix, tempC: number): number => mix.freezableKg * frozenShare(tempC, mix.freezingC)

/** Enthalpy of the finished mix at one temperature, kJ; part frozen below its freezing point. Rises with temperature. */
const after = (mix: Mix, tempC: number): number =>
  mix.parts.reduce((s, p) => s + p.kg * p.food.liquid(tempC), 0) +
  mix.waterKg * WATER_CP * tempC +
  mix.saltKg * SALT.cp * tempC -
  frozenKg(mix, tempC) * (tempC < 0 ? fusionAt(tempC) : 0)

/** Temperature at which the mix holds `kj`, by bisection to the last bit. */
function temperatureOf(mix: Mix, kj: number): number {
  let [low, high] = [NEVER_FREEZES_C, 1]
  while (after(mix, high) < kj && high < 1e6) high *= 2
  for (;;) {
    const middle = (low + high) / 2
    if (middle <= low || middle >= high) return middle
    if (after(mix, middle) < kj) low = middle
    else high = middle
  }
}

type Answer = {
  readonly iceKg: number
  readonly finalC: number
  readonly possible: boolean
  readonly limit?: 'cold' | 'warm' | 'frozen'
}

function answer(mix: Mix, targetC: number): Answer {
  const aim = Math.max(targetC, mix.freezingC)
  const perKgIce = WATER_CP * mix.waterTempC - (iceSensible(mix.iceTempC) - FUSION_KJ)
  const wanted = (before(mix, 0) - after(mix, aim)) / perKgIce
  const noise = 1e-9 * (mix.waterKg + 1)
  if (targetC < mix.freezingC) {
    const iceKg = Math.min(Math.max(wanted, 0), mix.waterKg)
    return { iceKg, finalC: temperatureOf(mix, before(mix, iceKg)), possible: false, limit: 'frozen' }
  }
  if (wanted < -noise) return { iceKg: 0, finalC: temperatureOf(mix, before(mix, 0)), possible: false, limit: 'cold' }
  if (wanted > mix.waterKg + noise)
    return { iceKg: mix.waterKg, finalC: temperatureOf(mix, before(mix, mix.waterKg)), possible: false, limit: 'warm' }
  const iceKg = Math.min(Math.max(wanted, 0), mix.waterKg)
  // A hair beyond all or none of the water counts as reached; the temperature is then the one that closes the balance.
  return { iceKg, finalC: iceKg === wanted ? targetC : temperatureOf(mix, before(mix, iceKg)), possible: true }
}

const round = (x: number, places = 1): string => String(Number(x.toFixed(places)))

/** How much colder all parts must be for all the water as ice to reach the target, °C; undefined where 60 °C would not do. */
function chillBy(input: IceInput): number | undefined {
  const reaches = (c: number) => answer(prepare(input, -c), input.targetC).limit !== 'warm'
  if (!reaches(60)) return undefined
  let [low, high] = [0, 60]
  for (let i = 0; i < 60; i += 1) {
    const middle = (low + high) / 2
    if (reaches(middle)) high = middle
    else low = middle
  }
  return high
}

function why(input: IceInput, mix: Mix, a: Answer): string {
  const target = `${round(input.targetC)} °C`
  if (a.finalC > STEAM_C)
    return `the work of ${round(mix.workKj)} kJ would boil the mix; check workKj: chopping gives a few tens of kJ a kg`
  if (a.limit === 'frozen')
    return `the mix begins to freeze at ${round(mix.freezingC)} °C, so at ${target} ice would be left in it; the closest with none left is ${round(a.finalC)} °C`
  if (a.limit === 'cold')
    return `the mix ends at ${round(a.finalC)} °C with no ice at all, below ${target}; use warmer water (or let the meat temper), or chop longer`
  if (a.limit === 'warm') {
    const colder = chillBy(input)
    const cure =
      colder === undefined
        ? 'part of the meat would have to go in frozen'
        : `chill the meat by ${round(Math.max(colder, 0.1))} °C more, or put part of it in frozen`
    return `all ${round(input.waterKg, 3)} kg of water as ice still ends at ${round(a.finalC)} °C, above ${target}; ${cure}`
  }
  return `${round(a.iceKg, 3)} kg of the water as ice ends the mix at ${target}`
}

function workingOf(input: IceInput, mix: Mix, a: Answer): WorkingStep[] {
  const parts = mix.parts.map((p, i) => ({
    step: `part ${i + 1}: heat to ${round(a.finalC)} °C`,
    expression: `${p.kg} kg from ${p.tempC} °C${p.tempC < p.food.freezingC ? `, frozen below ${round(p.food.freezingC, 2)} °C` : ''}`,
    value: p.kg * (p.food.liquid(a.finalC) - enthalpy(p.food, p.tempC)),
    unit: 'kJ',
  }))
  return [
    ...parts,
    {
      step: 'water: heat',
      expression: `(${mix.waterKg} − ${a.iceKg}) kg × ${WATER_CP} × (${a.finalC} − ${mix.waterTempC})`,
      value: (mix.waterKg - a.iceKg) * WATER_CP * (a.finalC - mix.waterTempC),
      unit: 'kJ',
    },
    {
      step: 'ice: warming, melting and heat of its water',
      expression: `${a.iceKg} kg × (${FUSION_KJ} + ice from ${mix.iceTempC} °C + ${WATER_CP} × ${a.finalC})`,
      value: a.iceKg * (FUSION_KJ - iceSensible(mix.iceTempC) + WATER_CP * a.finalC),
      unit: 'kJ',
    },
    {
      step: 'salt: heat and dissolving',
      expression: `${mix.saltKg} kg × (${SALT.cp} × (${a.finalC} − ${SALT_TEMP_C}) + ${SALT.solutionKj})`,
      value: mix.saltKg * (SALT.cp * (a.finalC - SALT_TEMP_C) + SALT.solutionKj),
      unit: 'kJ',
    },
    {
      step: 'ice left in the mix',
      expression: `${frozenKg(mix, a.finalC)} kg × −heat of fusion`,
      value: a.finalC < 0 ? -frozenKg(mix, a.finalC) * fusionAt(a.finalC) : 0,
      unit: 'kJ',
    },
    { step: 'work', expression: 'sum of the lines above', value: input.workKj ?? 0, unit: 'kJ' },
  ]
}

/**
 * How much of a recipe's water goes in as ice so that the mix ends at a temperature: the heat that meat, water, ice and salt take
 * in equals the work of chopping. Meat below its freezing point brings the ice in it. Heat from the room and the hardening of fat
 * are left out, so the true end may lie a degree or so off: measure it.
 */
export function ice(input: IceInput): IceOutput {
  const mix = prepare(input)
  const a = answer(mix, input.targetC)
  const warmer = answer(prepare(input, WARMER_C), input.targetC)
  return {
    iceKg: a.iceKg,
    waterKg: input.waterKg - a.iceKg,
    finalC: a.finalC,
    possible: a.possible,
    because: why(input, mix, a),
    freezingC: mix.freezingC,
    frozenKg: frozenKg(mix, a.finalC),
    ifMeatWarmer: { byC: WARMER_C, iceKg: warmer.iceKg, finalC: warmer.finalC, possible: warmer.possible },
    residualKj: after(mix, a.finalC) - before(mix, a.iceKg),
    findings:
      input.kind === undefined ? [] : judge('mix', { kind: input.kind, finalC: a.finalC, warmerC: warmer.finalC }),
    working: workingOf(input, mix, a),
  }
}
