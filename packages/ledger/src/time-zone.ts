import { text } from '@forcemeat/craft/schema'

const known = (zone: string): boolean => {
  try {
    return Intl.DateTimeFormat('en', { timeZone: zone }).resolvedOptions().timeZone !== ''
  } catch {
    return false
  }
}

/** A time zone by its name. */
export const timeZone = () =>
  text(60).refine(known, {
    error: ({ input }) =>
      `is ${JSON.stringify(input)}, which is no time zone; allowed: a name such as Europe/London or UTC`,
  })

/** The zone a kitchen's days are told in: as it says, else that of the machine the record is kept on, which stands there. */
export const zoneOf = (kitchen: { readonly timeZone?: string | undefined } | undefined): string =>
  kitchen?.timeZone ?? Intl.DateTimeFormat().resolvedOptions().timeZone
