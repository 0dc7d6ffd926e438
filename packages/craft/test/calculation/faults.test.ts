import { expect, it } from 'vitest'
import { z } from 'zod'
import { InvalidInput, parseOrThrow } from '@forcemeat/craft/calculation'
import { calculations } from '@forcemeat/craft/calculations'
import { fieldsAt } from '../../src/fields-of.ts'

const faultsOf = (schema: z.ZodType, value: unknown) => {
  try {
    parseOrThrow(schema, value)
  } catch (error) {
    if (error instanceof InvalidInput) return error.faults
    throw error
  }
  return []
}

const line = z.strictObject({ material: z.string(), kg: z.number().optional() })
const schema = z.strictObject({
  name: z.string(),
  body: z.unknown(),
  lines: z.array(line).optional(),
  basis: z
    .union([z.strictObject({ meatKg: z.number() }), z.strictObject({ totalKg: z.number(), loss: line })])
    .optional(),
})

it('names the fields that are allowed where one is not, at every depth', () => {
  expect(faultsOf(schema, { name: 'a', body: 1, nmae: 'b' })).toEqual([
    { path: 'nmae', message: 'is not a field here; allowed: name, body, lines, basis' },
  ])
  expect(faultsOf(schema, { name: 'a', body: 1, lines: [{ material: 'x', grams: 3 }] })).toEqual([
    { path: 'lines[0].grams', message: 'is not a field here; allowed: material, kg' },
  ])
  expect(faultsOf(schema, { name: 'a', body: 1, basis: { totalKg: 1, loss: { material: 'x', pct: 3 } } })).toEqual([
    { path: 'basis.loss.pct', message: 'is not a field here; allowed: material, kg' },
  ])
})

it('says of what is missing that it is, and what may stand there, in words', () => {
  const said = faultsOf(schema, {}).map((f) => `${f.path} ${f.message}`)
  expect(said).toContain('name is missing; allowed: a text')
  expect(said.join(' ')).not.toMatch(/nonoptional|undefined/)
})

it('finds the fields of the input of every calculation', () => {
  for (const { name, input } of Object.values(calculations)) {
    const fields = fieldsAt(input, [])
    expect(fields.length, name).toBeGreaterThan(0)
    const [fault] = faultsOf(input, { zzz: 1 }).filter((f) => f.path === 'zzz')
    if (fault) expect(fault.message).toContain(fields[0])
  }
})
