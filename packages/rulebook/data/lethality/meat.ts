import type { Source } from '@forcemeat/craft/source'

/** One row: temperature in °F as printed, and seconds to hold for each reduction of Salmonella. 0 = reached is enough. */
export type MeatRow = { readonly f: number; readonly log5: number; readonly log6_5: number; readonly log7: number }

const document = 'USDA FSIS, Cooking Guideline for Meat and Poultry Products (Revised Appendix A), FSIS-GD-2021-14'

export const meatSource: Source = {
  document,
  section: 'Table 2 (6.5-log and 7-log, p. 35) and Table 6 (5-log, p. 59)',
  edition: 'December 2021',
  url: 'https://www.fsis.usda.gov/guidelines/2017-0007',
  mark: 'seen',
}

/** Meat without poultry. Minutes as printed up to 145 °F, seconds from 146 °F; held here in seconds. */
export const meatRows: readonly MeatRow[] = [
  { f: 130, log5: 5160, log6_5: 6720, log7: 7260 },
  { f: 131, log5: 4140, log6_5: 5340, log7: 5820 },
  { f: 132, log5: 3300, log6_5: 4260, log7: 4620 },
  { f: 133, log5: 2640, log6_5: 3360, log7: 3720 },
  { f: 134, log5: 2100, log6_5: 2700, log7: 2820 },
  { f: 135, log5: 1680, log6_5: 2160, log7: 2220 },
  { f: 136, log5: 1320, log6_5: 1680, log7: 1920 },
  { f: 137, log5: 1080, log6_5: 1380, log7: 1440 },
  { f: 138, log5: 840, log6_5: 1080, log7: 1140 },
  { f: 139, log5: 660, log6_5: 900, log7: 900 },
  { f: 140, log5: 540, log6_5: 720, log7: 720 },
  { f: 141, log5: 420, log6_5: 540, log7: 600 },
  { f: 142, log5: 360, log6_5: 480, log7: 480 },
  { f: 143, log5: 300, log6_5: 360, log7: 360 },
  { f: 144, log5: 240, log6_5: 300, log7: 300 },
  { f: 145, log5: 180, log6_5: 240, log7: 240 },
  { f: 146, log5: 130, log6_5: 169, log7: 182 },
  { f: 147, log5: 103, log6_5: 134, log7: 144 },
  { f: 148, log5: 82, log6_5: 107, log7: 115 },
  { f: 149, log5: 65, log6_5: 85, log7: 91 },
  { f: 150, log5: 52, log6_5: 67, log7: 72 },
  { f: 151, log5: 41, log6_5: 54, log7: 58 },
  { f: 152, log5: 33, log6_5: 43, log7: 46 },
  { f: 153, log5: 26, log6_5: 34, log7: 37 },
  { f: 154, log5: 21, log6_5: 27, log7: 29 },
  { f: 155, log5: 17, log6_5: 22, log7: 23 },
  { f: 156, log5: 14, log6_5: 17, log7: 19 },
  { f: 157, log5: 11, log6_5: 14, log7: 15 },
  { f: 158, log5: 0, log6_5: 0, log7: 0 },
  { f: 159, log5: 0, log6_5: 0, log7: 0 },
  { f: 160, log5: 0, log6_5: 0, log7: 0 },
]
