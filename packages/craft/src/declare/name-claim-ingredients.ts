import { figures } from '../rules.ts'
import { materialOf, textOf, type ClaimItem } from './name-claim-facts.ts'
import { blanked, plainName, saidAt, wordPattern } from './name-claim-words.ts'

/** An ingredient a name names, and the items that are it. */
export type NamedIngredient = { readonly say: string; readonly items: readonly number[]; readonly flavoured: boolean }

/** Ingredients other than meat that a name names, with the items that bear it out. */
export function namedIngredients(name: string, items: readonly ClaimItem[]): NamedIngredient[] {
  const { ingredients, flavour, notMeat } = figures('nameClaimWords')
  const flavoured = new RegExp(`^ (?:${flavour.join('|')})(?!\\p{L})`, 'iu')
  let rest = plainName(name).replaceAll(wordPattern(notMeat.slice(1)), (m) => '.'.repeat(m.length))
  return ingredients.flatMap((w) => {
    const at = saidAt(rest, w)
    if (at.length === 0) return []
    const all = rest
    rest = blanked(rest, at)
    const is = w.is.map((p) => new RegExp(`(?<!\\p{L})${p}`, 'iu'))
    return [
      {
        say: w.say,
        flavoured: at.every(({ end }) => flavoured.test(all.slice(end))),
        items: items.flatMap((i, n) =>
          i.kg > 0 &&
          (is.some((p) => p.test(textOf(i))) || w.categories?.includes(materialOf(i)?.category ?? '') === true)
            ? [n]
            : [],
        ),
      },
    ]
  })
}
