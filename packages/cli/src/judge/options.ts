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
