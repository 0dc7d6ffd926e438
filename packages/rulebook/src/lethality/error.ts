/** Said where nobody gave the thermometer's error: it then counts as none, which is never true of a thermometer. */
export const errorUnknownNote = "; the thermometer's error is not given and counts as nothing"
