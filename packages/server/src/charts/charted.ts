/** Figures of a batch that are charted over the batches of a recipe. */
export const charted = {
  fat: { title: 'Fat of the mix, reckoned from its lots', unit: '%' },
  yield: { title: 'Packed, of what was weighed in', unit: '%' },
  'link-weight': { title: 'Link weight, mean of those weighed', unit: 'g' },
  'end-ph': { title: 'pH at the end of fermentation', unit: 'pH' },
  'come-up': { title: 'Minutes until the core reached its target', unit: 'min' },
  'come-up-window': { title: 'Minutes in the warm zone while coming up, as the rule counts them', unit: 'min' },
  'chill-time': { title: 'Minutes from the start of the chill until the core was cold', unit: 'min' },
  'chill-share': { title: 'Slowest part of the chill, of the time its cooling option allows', unit: '%' },
} as const
export type Charted = keyof typeof charted

/** What would make the capability of a figure something that can be told, where the record has no limit for it. */
export const settles: Readonly<Record<Charted, string>> = {
  fat: 'a composition standard the recipe is sold under, or a limit of fat in the recipe',
  yield: 'the least yield you accept, set below: no published rule names one',
  'link-weight':
    'the lowest and the highest mean link weight you let pass, set below: the law weighs the pack, not the link, and the packs of a batch are judged with its label',
  'end-ph': 'a pH at which the recipe ends its fermentation, or a place of sale whose rule names one',
  'come-up': 'nothing more of this figure: rules limit the minutes in the warm zone, the next chart',
  'come-up-window': 'a cook log of the newest batch that a rule of come-up can be held against',
  'chill-time': 'nothing more of this figure: rules limit parts of the chill, the next chart',
  'chill-share': 'a chill log that meets one of the published cooling options',
}
