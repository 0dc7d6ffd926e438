import { readFile } from 'node:fs/promises'
import { calculations, findCalculation } from '@forcemeat/craft'
import { InvalidInput, type Calculation } from '@forcemeat/craft/calculation'
import { defineCommand } from 'citty'
import { command, exit, Stop } from '../command.ts'
import { print, say } from '../output.ts'

const nearest = (name: string): string => {
  const near = Object.keys(calculations).filter((n) =>
    n.split(/[.-]/).some((part) => part.length > 2 && name.includes(part)),
  )
  return near.length > 0 ? `; near it: ${near.join(', ')}` : ''
}

function find(name: string): Calculation {
  const found = findCalculation(name)
  if (!found)
    throw new Stop(
      exit.badInput,
      `NAME: ${JSON.stringify(name.slice(0, 80))} is not a calculation; allowed: those of forcemeat calc --list${nearest(name)}`,
    )
  return found
}

async function readAll(file: string | undefined): Promise<string> {
  if (file !== undefined && file !== '-') return readFile(file, 'utf8')
  if (process.stdin.isTTY)
    say('forcemeat: type the input as JSON, then Ctrl-D (forcemeat calc NAME --example shows one)')
  const parts: Buffer[] = []
  for await (const part of process.stdin) parts.push(part as Buffer)
  return Buffer.concat(parts).toString('utf8')
}

function parse(text: string): unknown {
  try {
    return JSON.parse(text.replace(/^\uFEFF/, ''))
  } catch (error) {
    const why = text.trim() === '' ? 'is empty' : `is not JSON (${(error as Error).message})`
    throw new Stop(exit.badInput, `(input): ${why}; allowed: one JSON value`)
  }
}

async function schemasOf(c: Calculation): Promise<unknown> {
  const { z } = await import('zod')
  return {
    name: c.name,
    title: c.title,
    input: z.toJSONSchema(c.input, { io: 'input', unrepresentable: 'any' }),
    output: z.toJSONSchema(c.output, { io: 'output', unrepresentable: 'any' }),
  }
}

const pretty = (value: unknown): string => JSON.stringify(value, null, 2)

const definition = defineCommand({
  meta: { name: 'calc', description: 'Run one calculation: JSON in, JSON out' },
  args: {
    name: { type: 'positional', required: false, description: 'the calculation, e.g. cure.ingoing' },
    file: {
      type: 'positional',
      required: false,
      description: 'file with the input; standard input where none is given',
    },
    list: { type: 'boolean', description: 'print all names and titles' },
    schema: { type: 'boolean', description: 'print the JSON Schemas of input and output' },
    example: { type: 'boolean', description: 'print an input to start from' },
  },
  run: async ({ args }) => {
    if (args.list) {
      const width = Math.max(0, ...Object.keys(calculations).map((n) => n.length))
      await print(
        Object.values(calculations)
          .map((c) => `${c.name.padEnd(width)}  ${c.title}`)
          .join('\n'),
      )
      return exit.ok
    }
    if (!args.name) throw new Stop(exit.badInput, 'NAME: is missing; allowed: those of forcemeat calc --list')
    const calculation = find(args.name)
    if (args.schema) await print(pretty(await schemasOf(calculation)))
    else if (args.example) await print(pretty(calculation.example))
    else {
      const input = parse(await readAll(args.file))
      try {
        await print(pretty(calculation.run(input)))
      } catch (error) {
        if (!(error instanceof InvalidInput)) throw error
        throw new Stop(
          exit.badInput,
          error.faults.map((f) => `${f.path}: ${f.message.replaceAll(/\s*\n\s*/g, ' ')}`).join('\n'),
        )
      }
    }
    return exit.ok
  },
})

export const calc = command(
  definition,
  `
EXAMPLES
  forcemeat calc --list
  forcemeat calc cure.ingoing --example > input.json
  forcemeat calc cure.ingoing input.json
  forcemeat calc cure.ingoing < input.json
  forcemeat calc cure.ingoing --schema

Fields' names end in their unit. A limit that is compared comes back as a finding with pass, fail or cannot-tell.

EXIT CODES
  0  computed
  2  unknown calculation, not JSON, or faults in the input: one line each on standard error, as "path: message",
     and nothing on standard output`,
)
