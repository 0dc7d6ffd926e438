import { InvalidInput } from '../../calculation.ts'

/** What a pattern of a lot code may hold, and what each stands for. */
export const lotTokens = {
  batch: 'code of the batch',
  recipe: 'code of the recipe',
  YYYY: 'year of packing',
  YY: 'year of packing, two digits',
  MM: 'month',
  DD: 'day of the month',
  DDD: 'day of the year, 001 to 366',
} as const

export type LotOf = { readonly batch?: string; readonly recipe: string; readonly packedOn: string }

const dayOfYear = (iso: string): number =>
  Math.round((Date.parse(iso) - Date.parse(`${iso.slice(0, 4)}-01-01`)) / 86_400_000) + 1

/**
 * Lot code by the maker's own pattern: `L{YY}{DDD}-{batch}`. Undefined where the pattern asks for a batch and there is none.
 *
 * @throws InvalidInput for a token that is not one
 */
export function lotCode(pattern: string, { batch, recipe, packedOn }: LotOf): string | undefined {
  const values: Record<string, string | undefined> = {
    batch,
    recipe,
    YYYY: packedOn.slice(0, 4),
    YY: packedOn.slice(2, 4),
    MM: packedOn.slice(5, 7),
    DD: packedOn.slice(8, 10),
    DDD: String(dayOfYear(packedOn)).padStart(3, '0'),
  }
  const asked = [...pattern.matchAll(/\{([^{}]*)\}/g)].map((m) => m[1]!)
  const wrong = asked.filter((t) => !Object.hasOwn(values, t))
  if (wrong.length > 0 || /[{}]/.test(pattern.replaceAll(/\{[^{}]*\}/g, '')))
    throw new InvalidInput([
      {
        path: 'pack.lotPattern',
        message: `is ${JSON.stringify(pattern)}; allowed: text with ${Object.keys(lotTokens)
          .map((t) => `{${t}}`)
          .join(', ')}`,
      },
    ])
  if (asked.some((t) => values[t] === undefined)) return undefined
  return pattern.replaceAll(/\{([^{}]*)\}/g, (_, t: string) => values[t]!)
}

/**
 * Whether a pattern tells one batch from the next: it holds the code of the batch, or the recipe and the whole day of packing, by which one
 * day's packing of a recipe is one lot.
 *
 * @source Directive 2011/91/EU, Articles 1 and 2: an indication by which the lot can be told, set by the producer or packer (from memory)
 */
export function tellsBatches(pattern: string): boolean {
  const holds = (token: string) => pattern.includes(`{${token}}`)
  const year = holds('YY') || holds('YYYY')
  const day = holds('DDD') || (holds('MM') && holds('DD'))
  return holds('batch') || (holds('recipe') && year && day)
}
