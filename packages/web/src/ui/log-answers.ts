/** What a person may answer where a logger file is silent, in words. */
export const choices: Readonly<Record<string, string>> = {
  dmy: 'day, month, year',
  mdy: 'month, day, year',
  ymd: 'year, month, day',
  C: '°C',
  F: '°F',
  '.': 'decimal point',
  ',': 'decimal comma',
  shift: 'the clock was changed while logging',
  'as-read': 'the clock was not changed',
}
