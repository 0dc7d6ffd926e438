const months = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec']

/** A date as it stands on paper: day, month by its name, year, which nobody anywhere reads as another day. What is no date stays as it is. */
export function paperDay(iso: string): string {
  const [, year, month, day] = /^(\d{4})-(\d{2})-(\d{2})/.exec(iso) ?? []
  const name = months[Number(month) - 1]
  return year === undefined || name === undefined ? iso : `${Number(day)} ${name} ${year}`
}

/** An instant as it stands on paper, to the minute, without its zone, which a head of a table says once. */
export const paperTime = (iso: string): string => `${paperDay(iso)} ${iso.slice(11, 16)}`

/** An instant with its zone. */
export const paperInstant = (iso: string): string => `${paperTime(iso)} UTC`
