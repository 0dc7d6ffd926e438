import type { Source } from '@forcemeat/craft/source'

const icmsf: Source = {
  document: 'ICMSF, Microorganisms in Foods 5',
  section: 'growth limits of Staphylococcus aureus, as reproduced by meatsci.osu.edu/node/138',
  edition: '1996',
  mark: 'quoted',
}
const practice = (section: string): Source => ({
  document: 'trade practice of fermentation and drying',
  section,
  edition: 'none',
  mark: 'common-practice',
})

/** A room up to this keeps a raw mix cold: Staphylococcus aureus grows from 7 °C on. */
export const keptCold = { upToC: 7, source: icmsf } as const

/** A mix soured by a culture asks for so many hours of air at least so warm; chambers are run at 18 to 38 °C, slow ripenings at 10 to 15. */
export const souring = {
  leastC: 8,
  leastHours: 4,
  source: practice('least warmth in which a culture sours a mix'),
} as const

/** How far records of one air may lie apart before one of them has to be wrong, °C; choices of ours, no source. */
export const apart = {
  /** A product by hand over the warmest air of the hours before: fermenting warms it by a degree or two. */
  overLogC: 3,
  /** Hours in which a thick piece may still hold the warmth of the air before. */
  lagHours: 12,
  /** The log under what is planned or the room is set to: a chamber short of its heat is not so short. */
  underSetC: 8,
  /** A column left out over the warmest that counts, and for how long: one end of a chamber is warmer than the other. */
  leftOutC: 1,
  leftOutHours: 1,
  /** A second record that agrees with the log. */
  agreesC: 4,
  source: practice('agreement of thermometers in one chamber'),
} as const
