import { computeRecipe } from '@forcemeat/craft/recipe/compute'
import type { Recipe } from '@forcemeat/craft/recipe/schema'
import { trichinellaSpeciesOf, type TrichinellaSpecies } from '../batch/meat-origin.ts'

/** A caution that stands where the hand is: on the recipe, at the scale, at the cook and on the sheet at the bench. */
export type RecipeCaution = {
  readonly id: 'smoked-uncured' | 'raw-pork' | 'raw-sausage'
  readonly title: string
  readonly text: string
}

const words: Readonly<Record<TrichinellaSpecies, string>> = {
  pork: 'pork',
  'wild-boar': 'wild boar',
  bear: 'bear',
  horse: 'horse',
}

/** Smoke and no cure. Where bacon or a cure of unknown analysis is in it, nobody knows whether a cure is. */
function smokedUncured({ smoked }: Recipe, cured: string | boolean | undefined): RecipeCaution[] {
  if (!smoked || cured === true) return []
  const unknown = cured === undefined
  return [
    {
      id: 'smoked-uncured',
      title: unknown ? 'Smoked, and nobody said whether it is cured' : 'Smoked without cure: not called safe',
      text: `${unknown ? 'Whether nitrite is in what goes into it is not known: say what it brings. ' : 'No nitrite or nitrate is in it. '}In warm smoke, with little air, Clostridium botulinum can grow and leave its poison before the core is hot. Put a cure in; or bring the core up fast and without a stop into a cook that is logged and meets a lethality table. Never smoke it cold.`,
    },
  ]
}

/** Meat that may carry Trichinella and is eaten without a full cook. */
function rawPork({ kind, readyToEat }: Recipe, materials: readonly string[]): RecipeCaution[] {
  const found = [...new Set(materials.flatMap((m) => trichinellaSpeciesOf(m) ?? []))]
  if (kind === 'cooked' || !readyToEat || found.length === 0) return []
  const game = found.filter((s) => s !== 'pork').map((s) => words[s])
  return [
    {
      id: 'raw-pork',
      title: `Raw ${found.map((s) => words[s]).join(' and ')}, eaten as sold: how was it treated?`,
      text: `It is eaten without a full cook, and ${found.map((s) => words[s]).join(' and ')} can carry Trichinella. Each lot is frozen by a published schedule, from a certified herd, tested, or cured by a published method; smoke, salt and drying by themselves are none of these.${game.length > 0 ? ` Freezing does not make ${game.join(' or ')} safe: have each carcass tested.` : ''} Record it on the lot, with its document, before it is weighed in.`,
    },
  ]
}

/** Raw when it is sold. */
const rawSausage = ({ kind, readyToEat }: Recipe): RecipeCaution[] =>
  kind === 'cooked' || readyToEat
    ? []
    : [
        {
          id: 'raw-sausage',
          title: 'Raw: for whoever eats it to cook',
          text: 'Nothing in the making kills what raw meat carries. Keep it cold from the grinder to the sale, and apart from what is eaten as sold; its label says that it is raw and is to be cooked through. Nobody tastes the raw mix.',
        },
      ]

/**
 * The cautions a recipe is due, decided here for every page and sheet that shows them. They judge nothing: the findings do.
 *
 * @param materials what a batch of it holds beside the recipe's own parts, by id
 * @source 9 CFR 318.10 (former) and the FSIS trichinae guideline as in `process.raw-pork`; FSIS-GD-2021-14 as in `process.smoked-uncured`; the rest common practice, no source
 */
export function recipeCautions(recipe: Recipe, materials: readonly string[] = []): readonly RecipeCaution[] {
  const { facts } = computeRecipe({ recipe, meatKg: 10 })
  const inside = [
    ...[...recipe.meat, ...recipe.additions].filter((p) => p.pct > 0).map((p) => p.material),
    ...materials,
  ]
  return [...smokedUncured(recipe, facts['cured']), ...rawPork(recipe, inside), ...rawSausage(recipe)]
}
