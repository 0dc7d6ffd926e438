/** pH at which the published degree-hours end (AMIF 1997; CFIA, Meat hygiene manual of procedures, 4.16). */
export const TARGET_PH = 5.3
