import { parseOrThrow } from '@forcemeat/craft/calculation'
import type { Context } from 'hono'
import { largestFile } from '@forcemeat/ledger'
import { bodyLimit } from 'hono/body-limit'
import type { z } from 'zod'
import type { AppEnv } from '../context.ts'
import { refuse } from './refusal.ts'

/** Largest JSON body, bytes. */
export const jsonBytes = 1_000_000
/** Largest JSON body of a calculation, bytes: a core log of a reading a second over a week. */
export const calcBytes = 64_000_000
/** Largest file of the record, bytes. */
export const fileBytes = largestFile

/** Refuses a body over so many bytes while it streams in. */
export const limit = (bytes: number, what: string) =>
  bodyLimit({
    maxSize: bytes,
    onError: () => {
      throw refuse(413, `${what} is too large; allowed: up to ${Math.floor(bytes / 1_000_000)} MB`, '(body)')
    },
  })

export const jsonLimit = limit(jsonBytes, 'the JSON body')
export const calcLimit = limit(calcBytes, 'the JSON body')
export const fileLimit = limit(fileBytes, 'the file')

/** Body as JSON, whatever the content type says. @throws Refusal 400 where it is not JSON */
export async function readJson(c: Context<AppEnv>): Promise<unknown> {
  const text = await c.req.text()
  try {
    return JSON.parse(text)
  } catch {
    throw refuse(400, `is not JSON${text === '' ? ': it is empty' : ''}; allowed: one JSON value`, '(body)')
  }
}

/** Body as JSON of a shape. @throws Refusal, InvalidInput */
export const readShaped = async <T>(c: Context<AppEnv>, schema: z.ZodType<T>): Promise<T> =>
  parseOrThrow(schema, await readJson(c))

/** The query as one flat object of texts, checked. @throws InvalidInput */
export const readQuery = <T>(c: Context<AppEnv>, schema: z.ZodType<T>): T => parseOrThrow(schema, c.req.query())
