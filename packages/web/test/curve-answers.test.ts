import type { Answers } from '@forcemeat/craft/log/format'
import { expect, it } from 'vitest'
import { readingOf } from '../src/pages/curves/reading-of.ts'

it('every answer a log was read by goes into the record with it; the roles go with its columns', () => {
  const said: Required<Omit<Answers, 'roles'>> = {
    delimiter: ';',
    decimal: ',',
    unit: 'F',
    dateOrder: 'dmy',
    timeUnit: 'minutes',
    clockChange: 'shift',
  }
  expect(readingOf({ ...said, roles: { Core: 'core' } })).toEqual({ ...said, dateOrder: 'DMY' })
  expect(readingOf({})).toEqual({})
})
