import type { Fact } from '@forcemeat/ledger'
import type { Answers, Role } from '@forcemeat/craft/log/format'

type Curve = Pick<Fact<'batch.curve'>, 'reading' | 'channels'>

/** Roles as the reader of logs knows them; what it has no use for is another channel. */
const roleOf = (role: Curve['channels'][number]['role']): Role =>
  role === 'core' || role === 'house' || role === 'humidity' ? role : 'other'

/** The answers a recorded curve keeps, as the reader of logs takes them. */
export function answersOf({ reading, channels }: Curve): Answers {
  return {
    ...(reading.delimiter === undefined ? {} : { delimiter: reading.delimiter }),
    ...(reading.decimal === undefined ? {} : { decimal: reading.decimal }),
    ...(reading.unit === undefined ? {} : { unit: reading.unit }),
    ...(reading.dateOrder === undefined ? {} : { dateOrder: reading.dateOrder.toLowerCase() as 'ymd' | 'dmy' | 'mdy' }),
    ...(reading.timeUnit === undefined ? {} : { timeUnit: reading.timeUnit }),
    ...(reading.clockChange === undefined ? {} : { clockChange: reading.clockChange }),
    roles: Object.fromEntries(channels.map((c) => [c.column, roleOf(c.role)])),
  }
}
