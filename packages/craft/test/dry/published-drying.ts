import type { CourseInput } from '@forcemeat/craft/dry/course-schema'

/**
 * Dryings that were measured and published, as far as they could be read: in stored text of the pages, on 25 November 2026. Numbers stand as
 * printed; what was not printed in what could be read, and so had to be assumed, is said beside each.
 */
type Read = { readonly source: string; readonly read: string; readonly assumed: string }

/** Moisture of a batch by the day. Water is lost and nothing else, so loss = 1 − solids at the start / solids of the day. */
export type MoistureSeries = Read & {
  readonly batch: string
  readonly days: readonly number[]
  /** Solids, g per 100 g. */
  readonly solidsPct: readonly number[]
  readonly composition: CourseInput['composition']
  /** Weighings that fall into the first third of the days, and so are fitted. */
  readonly fitted: number
  /** Pieces and rooms that would fit the description; neither diameter nor air could be read. */
  readonly diametersMm: readonly number[]
  readonly rooms: readonly CourseInput['stages'][]
}

const chorizo: Read = {
  source:
    'Biochemical Changes during the Manufacture of Galician Chorizo Sausage …, Foods 2020, 9, 1813, Table 1 (PMC7762419); means of three batches each',
  read: 'the table in full (total solids, protein, fat, NaCl at 0, 2, 5, 9, 14, 21, 30 days); the methods could not be read',
  assumed: 'diameter, and the air: one room throughout, or two days at 20 °C and 90 % before it',
}
const CHORIZO_DAYS = [0, 2, 5, 9, 14, 21, 30]
const chorizoRooms = [65, 75].flatMap((rhPct) => [
  [{ days: 30, tempC: 12, rhPct }],
  [
    { days: 2, tempC: 20, rhPct: 90 },
    { days: 28, tempC: 12, rhPct },
  ],
])
/** Protein, fat and salt are printed per 100 g of solids. */
const chorizoBatch = (
  batch: string,
  solidsPct: readonly number[],
  [protein, fat, salt]: readonly [number, number, number],
): MoistureSeries => {
  const start = solidsPct[0]!
  return {
    ...chorizo,
    batch,
    days: CHORIZO_DAYS,
    solidsPct,
    composition: {
      waterPct: 100 - start,
      proteinPct: (protein * start) / 100,
      fatPct: (fat * start) / 100,
      saltPct: (salt * start) / 100,
    },
    fitted: 3,
    diametersMm: [32, 38, 45],
    rooms: chorizoRooms,
  }
}

const harbinAssumed =
  'diameter, the air (25 °C throughout), protein as lean of 75 % water and 22 % protein has, 2.5 % salt, 1 % sugar, fat as the rest'
const replaced: Read = {
  source:
    'Composite Gel … as a Cube Fat Substitute to Partially Replace Pork Fat in Harbin Dry Sausages, Foods 2021, 10, 1460, Table 3 (PMC8303530)',
  read: 'the table in full (moisture and water activity at 0, 1, 4, 7 days) and the abstract; the methods could not be read',
  assumed: harbinAssumed,
}
const reducedSalt: Read = {
  source: 'Foods 2022, 11, 650, Table 3 (PMC8909549): dry sausages with less salt and with yeasts, 12 days',
  read: 'the table’s moisture rows in full (0, 4, 8, 12 days); neither title nor methods could be read',
  assumed: harbinAssumed,
}
const harbinBatch = (
  source: Read,
  batch: string,
  days: readonly number[],
  moisturePct: readonly number[],
): MoistureSeries => {
  const waterPct = moisturePct[0]!
  const proteinPct = (22 / 75) * waterPct
  return {
    ...source,
    batch,
    days,
    solidsPct: moisturePct.map((m) => 100 - m),
    composition: { waterPct, proteinPct, saltPct: 2.5, carbohydratePct: 1, fatPct: 96.5 - waterPct - proteinPct },
    fitted: 1,
    diametersMm: [25, 30, 36],
    rooms: [45, 55, 65].map((rhPct) => [{ days: days.at(-1)!, tempC: 25, rhPct }]),
  }
}

export const moistureSeries: readonly MoistureSeries[] = [
  chorizoBatch('chorizo, no starter', [38.02, 42.72, 49.41, 53.14, 60.65, 68.04, 73.85], [49.22, 41.22, 3.24]),
  chorizoBatch('chorizo, starter EQU', [38.08, 41.49, 48.1, 51.35, 59.1, 66.25, 71.8], [49.67, 41.97, 3.35]),
  chorizoBatch('chorizo, starter SAP', [36.52, 40.81, 46.03, 51.14, 57.65, 67.42, 73.06], [48.34, 42.96, 3.27]),
  harbinBatch(replaced, 'dry sausage, all back fat', [0, 1, 4, 7], [62.52, 53.39, 38.37, 28.57]),
  harbinBatch(replaced, 'dry sausage, 20 % of the fat replaced', [0, 1, 4, 7], [63.32, 52.06, 37.12, 27.31]),
  harbinBatch(replaced, 'dry sausage, 40 % of the fat replaced', [0, 1, 4, 7], [64.35, 50.5, 35.63, 27.55]),
  harbinBatch(reducedSalt, 'dry sausage, salt as usual', [0, 4, 8, 12], [70.6, 37.27, 22.89, 18.35]),
  harbinBatch(reducedSalt, 'dry sausage, less salt', [0, 4, 8, 12], [69.63, 40.79, 25.81, 19.36]),
  harbinBatch(reducedSalt, 'dry sausage, less salt, yeast PK', [0, 4, 8, 12], [71.28, 40.54, 25.77, 19.79]),
  harbinBatch(reducedSalt, 'dry sausage, less salt, yeast TD', [0, 4, 8, 12], [70.65, 42.27, 25.63, 19.85]),
  harbinBatch(reducedSalt, 'dry sausage, less salt, yeast DH', [0, 4, 8, 12], [71.47, 38.58, 27.46, 21.56]),
]

/** Loss of the start weight, %, by the moisture of the day. */
export const lossesOf = ({ solidsPct }: MoistureSeries): number[] => solidsPct.map((s) => 100 * (1 - solidsPct[0]! / s))

/** A hobbyist's own log, with its diameter and its air, and no composition: 25 % fat, 2.8 % salt, lean of 75 % water and 21.5 % protein. */
export type HomeDrying = Read & {
  readonly piece: string
  readonly diameterMm: number
  readonly stages: CourseInput['stages']
  /** Loss since day 0, or since the day named, with the range as told. */
  readonly since: number
  readonly weighed: readonly { readonly day: number; readonly lossPct: readonly [low: number, high: number] }[]
}

const lean = (100 - 25 - 2.8 - 1) / 100
export const homeComposition: CourseInput['composition'] = {
  waterPct: 75 * lean,
  proteinPct: 21.5 * lean,
  fatPct: 25,
  saltPct: 2.8,
  carbohydratePct: 1,
}

const post = 'the post in full'
export const homeDryings: readonly HomeDrying[] = [
  {
    piece: 'three kinds of salami, 2 inch fibrous casing',
    source: 'wedlinydomowe.pl, English forum, “Salami done too fast?”, 29 June 2014',
    read: post,
    assumed: 'composition, air speed',
    diameterMm: 51,
    stages: [
      { days: 3, tempC: 20, rhPct: 90 },
      { days: 10, tempC: 12.8, rhPct: 85 },
    ],
    since: 0,
    weighed: [{ day: 13, lossPct: [29, 34] }],
  },
  {
    piece: 'salami, 36 mm hog casing',
    source: 'en.wedlinydomowe.pl, “Returning an opened Salami to Curing chamber”, 3 February 2022',
    read: post,
    assumed: 'composition, air speed; two days of fermenting at 22 °C and 90 %',
    diameterMm: 36,
    stages: [
      { days: 2, tempC: 22, rhPct: 90 },
      { days: 12, tempC: 13, rhPct: 77 },
    ],
    since: 0,
    weighed: [{ day: 14, lossPct: [38, 38] }],
  },
  {
    piece: 'the same batch, 50 mm beef middle',
    source: 'en.wedlinydomowe.pl, “Returning an opened Salami to Curing chamber”, 3 February 2022',
    read: `${post}; that the least loss told, 23 %, is that of the thicker casing is our reading`,
    assumed: 'composition, air speed; two days of fermenting at 22 °C and 90 %',
    diameterMm: 50,
    stages: [
      { days: 2, tempC: 22, rhPct: 90 },
      { days: 12, tempC: 13, rhPct: 77 },
    ],
    since: 0,
    weighed: [{ day: 14, lossPct: [23, 23] }],
  },
  {
    piece: 'salami, 32 to 35 mm hog casing',
    source: 'forum.sausagemaking.org, topic 2394, 6 December 2006',
    read: post,
    assumed: 'composition but for 2.2 % salt; air speed; the humidity of the day of fermenting, 90 %',
    diameterMm: 33.5,
    stages: [
      { days: 1, tempC: 32.2, rhPct: 90 },
      { days: 3, tempC: 12.8, rhPct: 75 },
    ],
    since: 1,
    weighed: [{ day: 4, lossPct: [17, 20] }],
  },
  {
    piece: 'salami, 45 mm casing',
    source: 'forum.sausagemaking.org, “Some questions about making salami”, page 3, 1 to 8 June 2015',
    read: 'four posts in full, with their hours',
    assumed: 'composition, air speed; 20 °C while it fermented, 14 °C in the four days after',
    diameterMm: 45,
    stages: [
      { days: 3, tempC: 20, rhPct: 95 },
      { days: 4, tempC: 14, rhPct: 60 },
      { days: 1.29, tempC: 13.5, rhPct: 71 },
      { days: 2.64, tempC: 13, rhPct: 70 },
      { days: 3.15, tempC: 13, rhPct: 68 },
    ],
    since: 0,
    weighed: [
      { day: 7, lossPct: [23, 23] },
      { day: 8.29, lossPct: [24.5, 24.5] },
      { day: 10.93, lossPct: [29.5, 29.5] },
      { day: 14.08, lossPct: [29.5, 30.5] },
    ],
  },
  {
    piece: 'salami, beef middles of 55 to 65 mm',
    source: 'reddit.com, r/CuredMeats, thread mqxxl4, 14 and 15 April 2021',
    read: 'post and reply in full; “about two weeks” at 55 % and “30 % in 3 weeks” are told on two days',
    assumed: 'composition, air speed; three days of fermenting at 22 °C and 90 % before, four days at 78 % after',
    diameterMm: 60,
    stages: [
      { days: 3, tempC: 22, rhPct: 90 },
      { days: 14, tempC: 12.8, rhPct: 55 },
      { days: 4, tempC: 12.8, rhPct: 78 },
    ],
    since: 0,
    weighed: [{ day: 21, lossPct: [30, 30] }],
  },
  {
    piece: 'salami, 61 mm collagen casing, next to no moving air',
    source: 'wedlinydomowe.pl, English forum, “Slow Weight Loss”, 30 January 2014',
    read: 'the first two posts in full',
    assumed: 'composition; 13 °C; 0.05 m/s for “very little circulation”',
    diameterMm: 61,
    stages: [{ days: 30, tempC: 13, rhPct: 75, airSpeedMPerS: 0.05 }],
    since: 0,
    weighed: [{ day: 30, lossPct: [19.5, 19.5] }],
  },
]
