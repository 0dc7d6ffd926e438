import { calculations, InvalidInput, type Finding } from '@forcemeat/craft'
import { findRule } from '@forcemeat/rulebook/catalogue'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { z } from 'zod'
import { fitting, spoiled } from './support/from-schema.ts'

type Json = Record<string, unknown>

const nonFinite = (value: unknown, path = ''): string[] => {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [`${path} is ${value}`]
  if (value !== null && typeof value === 'object')
    return Object.entries(value).flatMap(([k, v]) => nonFinite(v, `${path}.${k}`))
  return []
}

/** Runs, or names its faults; never another error, never a figure that is not one. */
function behaves(name: string, input: unknown): void {
  const calculation = calculations[name]!
  let output: unknown
  try {
    output = calculation.run(input)
  } catch (error) {
    if (!(error instanceof InvalidInput))
      throw new Error(`${name}(${JSON.stringify(input)}) threw ${String(error)}`, { cause: error })
    expect(error.faults.length, 'an invalid input names at least one fault').toBeGreaterThan(0)
    for (const f of error.faults) expect(f.message.length).toBeGreaterThan(3)
    return
  }
  expect(nonFinite(output), `${name}(${JSON.stringify(input)})`).toEqual([])
  const shaped = calculation.output.safeParse(output)
  if (!shaped.success)
    throw new Error(`${name}(${JSON.stringify(input)}) does not fit its output schema: ${shaped.error.message}`)
  for (const f of ((output as Json)['findings'] ?? []) as Finding[]) {
    expect(f.because.length, `${name}: ${f.rule} says why`).toBeGreaterThan(3)
    expect(findRule(f.rule), `${name}: the rule ${f.rule} stands on the Rules page`).toBeDefined()
  }
}

const RUNS = Number(process.env['FORCEMEAT_FUZZ_RUNS'] ?? 60)

describe('the registry', () => {
  it('is not empty and names each calculation once', () => {
    expect(Object.keys(calculations).length).toBeGreaterThan(0)
    for (const [name, c] of Object.entries(calculations)) expect(c.name).toBe(name)
  })

  describe.each(Object.keys(calculations))('%s', (name) => {
    const calculation = calculations[name]!
    const schema = z.toJSONSchema(calculation.input, { io: 'input', unrepresentable: 'any' }) as Json

    it('has a title, a summary and at least one source', () => {
      expect(calculation.title.length).toBeGreaterThan(3)
      expect(calculation.summary.length).toBeGreaterThan(10)
      expect(calculation.sources.length).toBeGreaterThan(0)
      for (const s of calculation.sources) expect(s.document.length).toBeGreaterThan(2)
    })

    it('computes its own example', () => {
      const output = calculation.run(structuredClone(calculation.example))
      expect(calculation.output.safeParse(output).error?.message).toBeUndefined()
      expect(nonFinite(output)).toEqual([])
    })

    it('gives the same answer to the same input and leaves the input alone', () => {
      const input = structuredClone(calculation.example)
      const first = JSON.stringify(calculation.run(input))
      expect(JSON.stringify(calculation.run(input))).toBe(first)
      expect(input).toEqual(calculation.example)
    })

    it('refuses an unknown field by name', () => {
      expect(() => calculation.run({ ...(calculation.example as Json), surpriseField: 1 })).toThrow(/surpriseField/)
    })

    it('runs or names its faults for any input that fits the schema', () => {
      fc.assert(
        fc.property(fitting(schema), (input) => behaves(name, input)),
        { numRuns: RUNS, seed: 20261125 },
      )
    }, 60_000)

    it('runs or names its faults for spoiled inputs', () => {
      fc.assert(
        fc.property(spoiled(schema), (input) => behaves(name, input)),
        { numRuns: RUNS, seed: 20261125 },
      )
    }, 60_000)
  })
})
