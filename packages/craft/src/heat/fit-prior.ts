import type { Stage } from './stage.ts'

/** What is known of a stage's film before any reading: a factor on what the model would take, as a logarithm. */
export type Prior = { readonly mean: number; readonly sd: number }

/** Spread of a film about what is given or, in air, about its correlation. An assumption. */
const FILM_SD = 0.5
/**
 * Water of which nobody says how it moves. The correlation of still water about one free piece gives some 1000 W/(m²·K); pieces that
 * hang together are told to see 150 to 400 in still water and 500 to 1500 in stirred (common practice, from memory): half of it on
 * average, from a seventh to thrice.
 */
const WATER: Prior = { mean: -0.7, sd: 1 }

/** Prior of a stage's film. */
export const filmPrior = (stage: Stage): Prior =>
  stage.medium === 'water' && stage.filmWPerM2K === undefined && stage.waterSpeedMPerS === undefined
    ? WATER
    : { mean: 0, sd: FILM_SD }
