import { z } from 'zod'
import { oneOf, text } from '@forcemeat/craft/schema'

/** Answers given to the reader of a logger file where the file itself is silent. */
export const logReading = () =>
  z.strictObject({
    delimiter: text(4).optional(),
    decimal: oneOf(['.', ',']).optional(),
    unit: oneOf(['C', 'F']).optional(),
    dateOrder: oneOf(['YMD', 'DMY', 'MDY']).optional(),
    timeColumn: text(120).optional(),
    /** What times given as plain numbers or as a:b are; and, where the clock jumps by an hour, whether it was changed while logging. */
    timeUnit: oneOf(['seconds', 'minutes', 'hours', 'hh:mm', 'mm:ss']).optional(),
    clockChange: oneOf(['shift', 'as-read']).optional(),
  })
