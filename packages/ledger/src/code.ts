import { z } from 'zod'

/** A short code people can read out: letters, digits, dot, dash; no spaces. */
export const code = () =>
  z.string().regex(/^[A-Za-z0-9][A-Za-z0-9.-]{0,59}$/, {
    error: 'is not a code; allowed: 1 to 60 letters, digits, dots and dashes, starting with a letter or digit',
  })
