import { calculations } from '@forcemeat/craft'
import { Hono } from 'hono'
import type { AppEnv } from '../context.ts'
import { version } from '../version.ts'
import { addresses, type Address } from './addresses.ts'
import { schemasOf } from './calc.ts'

type Json = Record<string, unknown>

const faultsSchema: Json = {
  type: 'object',
  required: ['faults'],
  properties: {
    faults: {
      type: 'array',
      items: {
        type: 'object',
        required: ['path', 'message'],
        properties: { path: { type: 'string' }, message: { type: 'string' } },
      },
    },
  },
}

const refusal = { $ref: '#/components/responses/Faults' }
const json = (schema: Json) => ({ 'application/json': { schema } })
const withoutDraft = (schema: Json): Json =>
  Object.fromEntries(Object.entries(schema).filter(([key]) => key !== '$schema'))

const mediaOf = { bytes: 'application/octet-stream', events: 'text/event-stream', pdf: 'application/pdf' } as const

function operation({ path, summary, query, body, answer = 'json', made, method }: Address): Json {
  const inPath = [...path.matchAll(/\{(\w+)\}/g)].map((m) => ({
    name: m[1],
    in: 'path',
    required: true,
    schema: { type: 'string' },
  }))
  const inQuery = Object.entries(query ?? {}).map(([name, description]) => ({
    name,
    in: 'query',
    description,
    schema: { type: 'string' },
  }))
  const content = answer === 'json' ? json({ type: 'object' }) : { [mediaOf[answer]]: {} }
  return {
    operationId: `${method} ${path}`.replaceAll(/[^A-Za-z0-9]+/g, '-').replace(/-$/, ''),
    summary,
    ...(inPath.length + inQuery.length > 0 ? { parameters: [...inPath, ...inQuery] } : {}),
    ...(body ? { requestBody: { required: true, content: body === 'json' ? json({}) : { [mediaOf.bytes]: {} } } } : {}),
    responses: { [made ?? 200]: { description: summary, content }, default: refusal },
  }
}

const calculationPaths = (): Json =>
  Object.fromEntries(
    Object.values(calculations).map((c) => {
      const { input, output } = schemasOf(c)
      const post = {
        operationId: `calc-${c.name}`,
        tags: ['calculations'],
        summary: c.title,
        description: c.summary,
        requestBody: {
          required: true,
          content: { 'application/json': { schema: withoutDraft(input), example: c.example } },
        },
        responses: {
          200: { description: c.title, content: json(withoutDraft(output)) },
          400: refusal,
          default: refusal,
        },
      }
      return [`/api/calc/${c.name}`, { post }]
    }),
  )

/** The document: one path for each calculation of the registry, and one for each other address. */
export function openApiDocument(): Json {
  const paths: Record<string, Json> = {}
  for (const a of addresses) (paths[a.path] ??= {})[a.method] = operation(a)
  return {
    openapi: '3.1.0',
    jsonSchemaDialect: 'https://json-schema.org/draft/2020-12/schema',
    info: {
      title: 'Forcemeat',
      version,
      description: "The sausage maker's bench. Every refusal is { faults: [{ path, message }] }.",
      license: { name: 'MIT', identifier: 'MIT' },
    },
    servers: [{ url: '/' }],
    paths: { ...paths, ...calculationPaths() },
    components: {
      responses: { Faults: { description: 'What was wrong, and what is allowed.', content: json(faultsSchema) } },
    },
  }
}

let made: Json | undefined
export const openApiRoutes = new Hono<AppEnv>().get('/api/openapi.json', (c) => c.json((made ??= openApiDocument())))
