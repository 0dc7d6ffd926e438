import { describe, expect, it } from 'vitest'
import { judgeBatch } from '../../src/batch/judge-batch.ts'
import type { AirChannel } from '../../src/batch/slow-facts.ts'
import { fermented, slow } from './slow-batch.ts'

const findings = (air: AirChannel) => judgeBatch(slow(), [], { air: [air] }).findings
const us = (air: AirChannel) => findings(air).find((f) => f.rule.startsWith('us.ferment.degree-hours'))!
const every = (hours: number, n: number, tempC = 15) =>
  fermented(undefined, { readings: Array.from({ length: n }, (_, i) => ({ minute: i * hours * 60, value: tempC })) })

describe('a chamber log of few readings (a choice of ours: an hour, or two and a half where one reading is lost)', () => {
  it('has holes where nobody looked for more than an hour', () => {
    for (const log of [every(42, 2), every(21, 3), every(8, 6), every(6, 12)])
      expect(us(log).verdict).toBe('cannot-tell')
  })
  it('is joined where it was read hourly', () => {
    expect(us(every(1, 49)).verdict).toBe('pass')
  })
})
