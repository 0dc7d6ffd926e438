import type { Source } from '../source.ts'

export const phamFreezing: Source = {
  document:
    'Pham, J. Food Eng. 30:95–107, Prediction of calorimetric properties and freezing time of foods from composition data',
  section:
    'initial freezing point θF = −4.66 x_other/x_water − 46.4 x_ash/x_water; enthalpies within some 10 % for meats',
  edition: '1996',
  mark: 'quoted',
}
export const iceFraction: Source = {
  document: 'ASHRAE Handbook—Refrigeration, Thermal properties of foods',
  section: 'ice fraction x_ice = (x_water − x_bound)(1 − t_f/t), x_bound = 0.4 x_protein',
  edition: '2006 and later',
  mark: 'from-memory',
}
export const waterConstants: Source = {
  document: 'CRC Handbook of Chemistry and Physics',
  section:
    'heat of fusion of ice 333.6 kJ/kg; specific heat of water near 10 °C 4.19 kJ/(kg·K); NaCl: freezing-point fall 3.4 K per mol/kg, heat of solution 66 kJ/kg',
  edition: 'any recent',
  mark: 'from-memory',
}
