/** How far a cook was checked against measured cores, for every page and answer to say the same; docs/method/heat.md has the figures. */
export const HOW_COOK_WAS_CHECKED =
  'A prediction: checked against the log of one sausage in a smoker, foretold 0 to 11 °C too cold, and against published coolings of meat rolls and hams; against no measured cook in water. It plans a cook and never releases a batch; a measured core does.'
