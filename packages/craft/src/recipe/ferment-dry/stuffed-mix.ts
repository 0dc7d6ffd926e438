import { InvalidInput } from '../../calculation.ts'
import { stated, type Component } from '../../blend/composition-of.ts'
import type { RecipeComputeInput } from '../compute-schema.ts'
import { partsOf, type Part } from '../lines.ts'

/** Parts whose composition nobody knows may make up this share of the mix and be left out: cultures, traces. An assumption. */
const MOST_UNKNOWN_PCT = 1
/** What tables may add up to over 100 % before nobody believes them. An assumption. */
const MOST_OVER_PCT = 2

const needed = ['waterPct', 'proteinPct', 'fatPct'] as const
const besides = ['carbohydratePct', 'ashPct', 'saltPct'] as const
const words = { waterPct: 'water', proteinPct: 'protein', fatPct: 'fat' } as const

/** What a forecast lacks, and what would give it. */
export type Missing = { readonly because: string; readonly settle: string }

/** A recipe at a size, or the lines weighed for it. */
export type MixInput = Pick<RecipeComputeInput, 'recipe' | 'meatKg' | 'materials' | 'lots' | 'lines'>

export type StuffedMix = {
  /** Water, protein and fat only where every part says its own; the others as far as parts say them, which errs on the wet side. */
  readonly composition: { readonly [K in (typeof needed)[number] | (typeof besides)[number]]?: number }
  readonly missing: readonly Missing[]
  /** What was left out or not counted, in words. */
  readonly notes: readonly string[]
}

const kgOf = (parts: readonly Part[]): number => parts.reduce((s, p) => s + p.kg, 0)
const lacks = (p: Part, c: Component): boolean => stated(p.composition, c) === undefined
const namesOf = (parts: readonly Part[]): string => [...new Set(parts.map((p) => p.material.name))].join(', ')

/** The composition of a mix as stuffed, without the small parts, such as cultures, whose water, protein or fat nobody knows. */
export function stuffedMix(all: readonly Part[]): StuffedMix {
  const present = all.filter((p) => p.kg > 0)
  const blank = present.filter((p) => needed.some((c) => lacks(p, c)))
  const trace = blank.length > 0 && kgOf(blank) <= (MOST_UNKNOWN_PCT / 100) * kgOf(present)
  const parts = trace ? present.filter((p) => !blank.includes(p)) : present
  const shareOf = (c: Component): number =>
    parts.reduce((s, p) => s + p.kg * (stated(p.composition, c) ?? 0), 0) / kgOf(parts)
  const unknown = needed.filter((c) => parts.some((p) => lacks(p, c)))
  const composition = Object.fromEntries(
    [...needed.filter((c) => !unknown.includes(c)), ...besides.filter((c) => parts.some((p) => !lacks(p, c)))].map(
      (c) => [c, shareOf(c)],
    ),
  )
  const unsalted = parts.filter((p) => lacks(p, 'saltPct'))
  const missing = unknown.map((c) => `${words[c]} of ${namesOf(parts.filter((p) => lacks(p, c)))}`)
  const { adjusted, sum } = withinHundred(composition)
  return {
    composition: adjusted,
    missing:
      missing.length > 0
        ? [
            {
              because: `the composition is not known: ${missing.join('; ')}`,
              settle: 'the composition of every part that weighs, from a specification or an analysis',
            },
          ]
        : sum > 100 + MOST_OVER_PCT
          ? [
              {
                because: `the composition adds up to ${Number(sum.toFixed(1))} %`,
                settle: 'an analysis of the parts, for together they hold more than 100 %',
              },
            ]
          : [],
    notes: [
      ...(trace ? [`${namesOf(blank)}: composition not known, left out of the mix as a trace`] : []),
      ...(unsalted.length > 0
        ? [
            `the salt of ${namesOf(unsalted)} is not known and not counted: computed water activity errs on the wet side`,
          ]
        : []),
    ],
  }
}

/** Components of a food table are means of their own and may add up to a little over 100 %; then all are made smaller alike. */
function withinHundred(c: StuffedMix['composition']): { adjusted: StuffedMix['composition']; sum: number } {
  const { waterPct = 0, proteinPct = 0, fatPct = 0, carbohydratePct = 0, ashPct = 0, saltPct = 0 } = c
  const sum = waterPct + proteinPct + fatPct + carbohydratePct + Math.max(ashPct, saltPct)
  if (sum <= 100 || sum > 100 + MOST_OVER_PCT) return { adjusted: c, sum }
  return { adjusted: Object.fromEntries(Object.entries(c).map(([k, v]) => [k, (v * 100) / sum])), sum }
}

/** The parts of a mix; where a material or lot is not known, what is missing in words. */
export function partsIfKnown(input: MixInput): {
  readonly parts: readonly Part[]
  readonly missing: readonly Missing[]
} {
  try {
    return { parts: partsOf(input).parts, missing: [] }
  } catch (error) {
    if (!(error instanceof InvalidInput)) throw error
    return {
      parts: [],
      missing: [
        {
          because: error.faults.map((f) => `${f.path} ${f.message}`).join('; '),
          settle: 'materials and lots that are in the table or in the record',
        },
      ],
    }
  }
}
