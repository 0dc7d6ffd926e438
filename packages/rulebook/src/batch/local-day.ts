const formats = new Map<string, Intl.DateTimeFormat>()

function formatOf(zone: string): Intl.DateTimeFormat {
  const known = formats.get(zone)
  if (known) return known
  const made = new Intl.DateTimeFormat('en-CA', { timeZone: zone, year: 'numeric', month: '2-digit', day: '2-digit' })
  formats.set(zone, made)
  return made
}

/**
 * The calendar day of an instant at the kitchen, YYYY-MM-DD: the day a person there would write on a check. Without a zone, the day in UTC.
 */
export function dayOf({ timeZone }: { readonly timeZone?: string | undefined }, instant: string): string {
  if (timeZone === undefined || timeZone === 'UTC') return new Date(instant).toISOString().slice(0, 10)
  const parts = formatOf(timeZone).formatToParts(new Date(instant))
  const part = (type: string): string => parts.find((p) => p.type === type)?.value ?? ''
  return `${part('year')}-${part('month')}-${part('day')}`
}
