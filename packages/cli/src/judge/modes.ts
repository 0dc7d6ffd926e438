import { exit, Stop } from '../command.ts'

/** What a log is judged as. */
export const modes = ['cook-and-chill', 'ferment', 'freezing'] as const
export type Mode = (typeof modes)[number]

const COOK: readonly Mode[] = ['cook-and-chill']

/** Options that serve some judgements only; any other serves all. */
const takenBy: Readonly<Record<string, readonly Mode[]>> = {
  organism: COOK,
  cured: COOK,
  'cook-only': COOK,
  'nitrite-ppm': COOK,
  'erythorbate-ppm': COOK,
  'salt-pct': COOK,
  'water-pct': COOK,
  casing: COOK,
  'humidity-option': COOK,
  'humid-minutes': COOK,
  'cook-minutes': COOK,
  'accept-falls': COOK,
  'chill-start': COOK,
  species: ['cook-and-chill', 'freezing'],
  core: ['cook-and-chill', 'freezing'],
  house: ['cook-and-chill', 'ferment'],
  place: ['ferment', 'freezing'],
  ph: ['ferment'],
  'ph-file': ['ferment'],
  'ph-meter-calibrated': ['ferment'],
  'ph-tolerance': ['ferment'],
  'target-ph': ['ferment'],
  'thickness-mm': ['freezing'],
}

/** Whether an option, or its `--no-` form, was typed. */
export const typed = (raw: readonly string[], name: string): boolean =>
  raw.some((a) => a.replace(/=.*$/s, '') === `--${name}` || a === `--no-${name}`)

/** @throws Stop for an option that the judgement asked for has no use for. */
export function refuseIdle(raw: readonly string[], mode: Mode): void {
  for (const [name, by] of Object.entries(takenBy)) {
    if (by.includes(mode) || !typed(raw, name)) continue
    throw new Stop(exit.badInput, `--${name}: goes unused with --as ${mode}; allowed: with --as ${by.join(' or ')}`)
  }
}
