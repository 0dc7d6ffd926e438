import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { calculations } from '@forcemeat/craft/calculations'
import { acid } from '@forcemeat/craft/ferment/acid'
import type { AcidInput } from '@forcemeat/craft/ferment/acid-schema'

const holds = (input: AcidInput, ph: number): boolean => {
  const { low, high } = acid(input).endPh
  return low - 1e-9 <= ph && ph <= high + 1e-9
}

describe('end pH from sugar', () => {
  it('holds the rule of 1 % sugar a pH unit: 0.4 % takes 5.8 to 5.4 (Toldrá, Dry-Cured Meat Products, p. 93, quoted)', () => {
    expect(holds({ startPh: 5.8, dextrosePct: 0.4, leanPct: 75 }, 5.4)).toBe(true)
  })
  it.each([0.5, 0.6, 0.7])(
    'holds the rule that %d percent sugar brings the pH just under 5.0 (trade handbook, quoted)',
    (dextrosePct) => {
      expect(holds({ startPh: 5.75, dextrosePct, leanPct: 75 }, 4.95)).toBe(true)
    },
  )
  // End pH of published batters rich in sugar, quoted from abstracts and tables: summer sausage 4.6; Norwegian dry sausage with much glucose 4.77 (30 °C) and 5.15 (20 °C), with
  // medium 4.67 and 4.82; pediococcal starters 4.62 and 4.76; control salami 4.65.
  it.each([4.6, 4.77, 5.15, 4.67, 4.82, 4.62, 4.76, 4.65])('holds the end pH of %d seen with sugar to spare', (ph) => {
    expect(holds({ startPh: 5.8, dextrosePct: 1.2, leanPct: 75 }, ph)).toBe(true)
  })
  it('counts 11.10 mmol of lactic acid a gram of dextrose and 11.69 a gram of sucrose (arithmetic of the molar masses)', () => {
    const mmol = (input: Partial<AcidInput>) =>
      acid({ startPh: 5.8, leanPct: 75, ...input }).working.find((w) => w.unit === 'mmol/kg')!.value
    expect(mmol({ dextrosePct: 0.1 })).toBeCloseTo(11.101, 3)
    expect(mmol({ sucrosePct: 0.1 })).toBeCloseTo(11.686, 3)
  })
  it('is always a band, never over the start nor upside down, and falls with sugar', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 5.3, max: 6.5, noNaN: true }),
        fc.double({ min: 0, max: 2, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 40, max: 100, noNaN: true }),
        (startPh, dextrosePct, gdlPct, leanPct) => {
          const { low, likely, high } = acid({ startPh, dextrosePct, gdlPct, leanPct }).endPh
          // On the floor of what is published low and high may meet.
          if (high > 4.3) expect(low).toBeLessThan(high)
          expect(low).toBeLessThanOrEqual(likely)
          expect(likely).toBeLessThanOrEqual(high)
          expect(high).toBeLessThanOrEqual(startPh)
          expect(low).toBeGreaterThanOrEqual(4.3 - 1e-9)
          const more = acid({ startPh, dextrosePct: dextrosePct + 0.2, gdlPct, leanPct }).endPh
          expect(more.likely).toBeLessThanOrEqual(likely)
          expect(more.high).toBeLessThanOrEqual(high)
        },
      ),
    )
  })
  it('says whether 5.3 can be counted on', () => {
    expect(acid({ startPh: 5.8, dextrosePct: 0.8, leanPct: 75 }).reaches).toBe('yes')
    expect(acid({ startPh: 5.8, dextrosePct: 0.3, leanPct: 75 }).reaches).toBe('not-sure')
    const none = acid({ startPh: 5.9, leanPct: 80 })
    expect(none.reaches).toBe('no')
    expect(none.warnings.join()).toMatch(/too little acid/)
  })
  it('says when there is more sugar than cultures use', () => {
    expect(acid({ startPh: 5.8, dextrosePct: 2, leanPct: 70 }).warnings.join()).toMatch(/overshoots/)
    expect(acid({ startPh: 5.8, dextrosePct: 0.5, leanPct: 75 }).warnings.join()).not.toMatch(/overshoots/)
  })
  it('counts no sugar without a culture, and lactose in full only for the lowest pH', () => {
    const wild = acid({ startPh: 5.8, dextrosePct: 1, leanPct: 75, culture: false })
    expect(wild.endPh.high).toBe(5.8)
    expect(wild.warnings.join()).toMatch(/without a culture/)
    const slow = acid({ startPh: 5.8, lactosePct: 1, leanPct: 75 })
    expect(slow.endPh.high).toBe(5.8)
    expect(slow.endPh.low).toBe(4.5)
  })
})

describe('end pH from glucono-delta-lactone', () => {
  it('holds the rule of 0.1 pH a 0.1 % (meatpoultry.com article 22081, quoted), with or without a culture', () => {
    for (const culture of [true, false])
      for (const gdlPct of [0.2, 0.5, 0.8])
        expect(holds({ startPh: 5.8, gdlPct, leanPct: 100, culture }, 5.8 - gdlPct)).toBe(true)
  })
  it('warns near 1 %, where it tastes', () => {
    expect(acid({ startPh: 5.8, gdlPct: 1, leanPct: 75 }).warnings.join()).toMatch(/bitter/)
  })
})

describe('what ferment.acid refuses', () => {
  it.each([
    [{ startPh: 5.8 }, /leanPct: is missing/],
    [{ startPh: 9, leanPct: 75 }, /startPh: is 9; allowed/],
    [{ startPh: 5.8, leanPct: 75, dextrosePct: -1 }, /dextrosePct: is -1; allowed/],
    [{ startPh: 5.8, leanPct: 75, honeyPct: 1 }, /honeyPct: is not a field here/],
  ])('names the field, what was given and what is allowed (%#)', (input, message) => {
    expect(() => calculations['ferment.acid']!.run(input)).toThrow(message)
  })
})
