import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { canonical, sha256 } from '../src/canonical.ts'

describe('canonical JSON', () => {
  it('writes the sample of RFC 8785, section 3.2.2 to 3.2.4, as printed there', () => {
    const sample = JSON.parse(
      '{"numbers":[333333333.33333329,1E30,4.50,2e-3,0.000000000000000000000000001],"string":"\\u20ac$\\u000F\\u000aA\'\\u0042\\u0022\\u005c\\\\\\"\\/","literals":[null,true,false]}',
    ) as unknown
    expect(canonical(sample)).toBe(
      '{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\\u000f\\nA\'B\\"\\\\\\\\\\"/"}',
    )
  })

  it('sorts the names of RFC 8785, section 3.2.3, by UTF-16 code unit', () => {
    const names = {
      '\u20ac': 'Euro Sign',
      '\r': 'Carriage Return',
      '\ufb33': 'Hebrew Letter Dalet With Dagesh',
      '1': 'One',
      '\ud83d\ude00': 'Emoji: Grinning Face',
      '\u0080': 'Control',
      '\u00f6': 'Latin Small Letter O With Diaeresis',
    }
    expect(Object.values(JSON.parse(canonical(names)) as object)).toHaveLength(7)
    // Read off the text: a parsed object puts whole-number names first.
    expect([...canonical(names).matchAll(/:"([^"]+)"/g)].map((m) => m[1])).toEqual([
      'Carriage Return',
      'One',
      'Control',
      'Latin Small Letter O With Diaeresis',
      'Euro Sign',
      'Emoji: Grinning Face',
      'Hebrew Letter Dalet With Dagesh',
    ])
  })

  it('is the same text for the same value however it was built, and comes back as that value', () => {
    fc.assert(
      fc.property(fc.jsonValue(), (value) => {
        const text = canonical(value)
        expect(canonical(JSON.parse(text))).toBe(text)
        expect(canonical(JSON.parse(JSON.stringify(value)))).toBe(text)
      }),
    )
  })

  it('leaves out what is undefined and refuses what JSON cannot hold', () => {
    expect(canonical({ b: 1, a: undefined })).toBe('{"b":1}')
    expect(() => canonical({ x: Number.NaN })).toThrow(/no JSON form/)
    expect(() => canonical([1n])).toThrow(/no JSON form/)
  })

  it('hashes "abc" to the digest of FIPS 180-4 (example published by NIST)', () => {
    expect(sha256('abc')).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad')
  })
})
