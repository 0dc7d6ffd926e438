import about from '../package.json' with { type: 'json' }

/** Version of the program. */
export const version: string = about.version
