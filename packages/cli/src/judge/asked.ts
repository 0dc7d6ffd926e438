import { stat } from 'node:fs/promises'
import type { CoolingProduct } from '@forcemeat/craft/heat/chill'
import type { Humidity } from '@forcemeat/craft/heat/lethality'
import { exit, Stop } from '../command.ts'
import { numberIn, oneIn } from './options.ts'

type Given = Readonly<Record<string, unknown>>
const textOf = (given: Given, name: string): string | undefined => {
  const value = given[name]
  return typeof value === 'string' ? value : undefined
}

/**
 * The product as the chilling rules ask for it; nothing where nothing is said of it. Nitrite implies a cured product.
 * @throws Stop where an option would go unused, or contradicts another.
 */
export function coolingIn(cured: boolean | undefined, given: Given): CoolingProduct | undefined {
  const nitrite = numberIn('nitritePpm', textOf(given, 'nitrite-ppm'), 0, 10_000)
  const rest = {
    ...numberIn('erythorbatePpm', textOf(given, 'erythorbate-ppm'), 0, 10_000),
    ...numberIn('saltPct', textOf(given, 'salt-pct'), 0, 100),
    ...numberIn('waterPct', textOf(given, 'water-pct'), 0, 100),
  }
  const some = nitrite.nitritePpm !== undefined && nitrite.nitritePpm > 0
  if (some && cured === false)
    throw new Stop(exit.badInput, '--nitrite-ppm: is given beside --no-cured; allowed: one of the two')
  const is = cured ?? (some ? true : undefined)
  if (is !== undefined) return { cured: is, ...nitrite, ...rest }
  const idle = ['nitrite-ppm', 'erythorbate-ppm', 'salt-pct', 'water-pct'].find(
    (name) => textOf(given, name) !== undefined,
  )
  if (idle !== undefined)
    throw new Stop(exit.badInput, `--${idle}: goes unused; allowed: with --cured or --no-cured beside it`)
  return undefined
}

/** What is known of the humidity of the cook. @throws Stop where an option would go unused, or contradicts another. */
export function humidityIn(given: Given): Humidity | undefined {
  const option = oneIn('humidityOption', textOf(given, 'humidity-option'), ['1', '2', '3', '4'] as const)
  const minutes = {
    ...numberIn('humidMinutes', textOf(given, 'humid-minutes'), 0, 100_000),
    ...numberIn('cookMinutes', textOf(given, 'cook-minutes'), 0, 100_000),
  }
  const named = option.humidityOption
  if (given['casing'] === true) {
    if (named !== undefined || Object.keys(minutes).length > 0)
      throw new Stop(exit.badInput, '--casing: is given beside a humidity option; allowed: one of the two')
    return { exempt: 'moisture-holding-casing' }
  }
  if (named === undefined) {
    if (Object.keys(minutes).length > 0)
      throw new Stop(exit.badInput, '--humid-minutes, --cook-minutes: go unused; allowed: with --humidity-option')
    return undefined
  }
  return {
    option: Number(named) as NonNullable<Humidity['option']>,
    ...(minutes.humidMinutes === undefined ? {} : { heldMinutes: minutes.humidMinutes }),
    ...(minutes.cookMinutes === undefined ? {} : { cookMinutes: minutes.cookMinutes }),
  }
}

/** @throws Stop where no file stands at a path. */
export async function fileThere(
  path: string,
  field = 'FILE',
  allowed = "a logger's file, or - for standard input",
): Promise<void> {
  const found = await stat(path).catch((e: NodeJS.ErrnoException) => e.code)
  if (typeof found === 'object' && found.isFile()) return
  const why = found === 'ENOENT' ? 'no such file' : found === 'EACCES' ? 'may not be read' : 'is not a file'
  throw new Stop(exit.badInput, `${field}: ${path}: ${why}; allowed: ${allowed}`)
}
