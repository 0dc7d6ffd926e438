/** Shown wherever a nitrite or nitrate agent is weighed, on the page and on paper. */
export const nitriteCaution =
  'Nitrite is poisonous. Weigh it on a scale fit for the amount, never by spoon or cup or by eye; have a second person read the scale. ' +
  'Keep cures locked apart from salt and sugar, in their own marked and coloured container, out of the reach of children. ' +
  'Never add more because it looks little: a few grams too many in a small batch can harm. ' +
  'If any was eaten by mistake, or lips or skin turn blue after a meal, call a poison centre or a doctor at once.'

/** Why a cure and an accelerator are not packed or mixed dry together ahead of use. */
export const acceleratorCaution =
  'Keep ascorbate, erythorbate and their acids apart from nitrite until they go into the meat: together, damp or in a pickle, ' +
  'they react and give off nitrogen oxides, and the nitrite is used up before it reaches the meat. Add each on its own.'

/** Why nitrite is kept apart from spices that supply amines until use (the separate packing asked for by 21 CFR 170.60). */
export const spiceCaution =
  'Pack nitrite and nitrate apart from spices, flavourings and protein hydrolysates until use: those can supply amines, which nitrite turns into nitrosamines.'
