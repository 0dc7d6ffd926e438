import { exit, Stop } from '../command.ts'

const optionName = (field: string): string =>
  `--${field.replaceAll(/[A-Z]/g, (c) => `-${c.toLowerCase()}`).replace(/-minute$/, '')}`

/** An option that is one of a few words, as a field; nothing where it was not given. */
export function oneIn<K extends string, T extends string>(
  field: K,
  given: string | undefined,
  words: readonly T[],
): { [P in K]?: T } {
  if (given === undefined) return {}
  const found = words.find((w) => w === given)
  if (found === undefined)
    throw new Stop(
      exit.badInput,
      `${optionName(field)}: is ${JSON.stringify(given)}; allowed: one of ${words.join(', ')}`,
    )
  return { [field]: found } as { [P in K]?: T }
}

/** An option that is a number within bounds, as a field. */
export function numberIn<K extends string>(
  field: K,
  given: string | undefined,
  min: number,
  max: number,
): { [P in K]?: number } {
  if (given === undefined) return {}
  const value = Number(given)
  if (given.trim() === '' || !(value >= min && value <= max))
    throw new Stop(
      exit.badInput,
      `${optionName(field)}: is ${JSON.stringify(given)}; allowed: a number from ${min} to ${max}`,
    )
  return { [field]: value } as { [P in K]?: number }
}

/** An option that names one or more of a few words, with commas between them; nothing where it was not given. */
export function someIn<T extends string>(
  field: string,
  given: string | undefined,
  words: readonly T[],
): T[] | undefined {
  if (given === undefined) return undefined
  const named = given
    .split(',')
    .map((w) => w.trim())
    .filter(Boolean)
  const found = named.flatMap((n) => words.filter((w) => w === n))
  if (found.length === 0 || found.length < named.length)
    throw new Stop(
      exit.badInput,
      `${optionName(field)}: is ${JSON.stringify(given)}; allowed: ${words.join(', ')}, or several with commas`,
    )
  return found
}
