import { describe, expect, it } from 'vitest'
import { calculations } from '@forcemeat/craft'
import { z } from 'zod'
import { fieldsOf, inputOf, nameOf, textsOf } from '../../src/pages/reference/plain-form.ts'
import type { Schema } from '../../src/pages/reference/schema-table.tsx'

const schemaOf = (name: string): Schema =>
  z.toJSONSchema(calculations[name]!.input, { io: 'input', unrepresentable: 'any' }) as Schema

describe('the plain fields of a calculation', () => {
  it.each(Object.keys(calculations))('say the example of %s and nothing else', (name) => {
    const fields = fieldsOf(schemaOf(name))
    const { input, faults } = inputOf(fields, textsOf(fields, calculations[name]!.example))
    expect(faults).toEqual([])
    expect(input).toEqual(calculations[name]!.example)
    expect(new Set(fields.map(nameOf)).size).toBe(fields.length)
  })

  it('leave out a group of which nothing is typed, and name a field that cannot be read', () => {
    const fields = fieldsOf({
      type: 'object',
      properties: {
        kg: { type: 'number' },
        agent: { type: 'object', properties: { pct: { type: 'number' } }, required: ['pct'] },
        dry: { type: 'boolean' },
        rows: { type: 'array', items: { type: 'number' } },
        way: { type: 'string', enum: ['a', 'b'] },
      },
      required: ['kg'],
    })
    expect(fields.map((f) => [nameOf(f), f.kind, f.needed])).toEqual([
      ['kg', 'number', true],
      ['agent.pct', 'number', false],
      ['dry', 'yes-no', false],
      ['rows', 'json', false],
      ['way', 'choice', false],
    ])
    expect(inputOf(fields, { kg: '2', dry: 'no', rows: '[1, 2]' }).input).toEqual({ kg: 2, dry: false, rows: [1, 2] })
    expect(inputOf(fields, { kg: 'two', rows: '[1' }).faults.map((f) => f.path)).toEqual(['kg', 'rows'])
  })
})
