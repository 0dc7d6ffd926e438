import { InvalidInput } from '@forcemeat/craft/calculation'
import type { Context } from 'hono'
import { HTTPException } from 'hono/http-exception'
import type { ContentfulStatusCode } from 'hono/utils/http-status'
import type { AppEnv } from '../context.ts'
import { Refusal } from './refusal.ts'

/** What each trouble of the record is called in HTTP. */
const recordStatus: Readonly<Record<string, ContentfulStatusCode>> = {
  'not-found': 404,
  busy: 503,
  damaged: 503,
  'read-only': 403,
  'disk-full': 507,
  'not-empty': 409,
  'would-lose': 409,
  closed: 503,
}

const isRecordError = (error: Error): error is Error & { problem: string } =>
  error.name === 'RecordError' && 'problem' in error

/** Every throw becomes faults in JSON; only what the program meant to say leaves the house, the rest goes to the log. */
export function answerError(error: Error, c: Context<AppEnv>): Response {
  if (error instanceof Refusal) return c.json({ faults: error.faults, ...error.more }, error.status)
  if (error instanceof InvalidInput || error.name === 'InvalidInput')
    return c.json({ faults: (error as InvalidInput).faults }, 400)
  if (isRecordError(error)) {
    c.set('error', error)
    return c.json({ faults: [{ path: '', message: error.message }] }, recordStatus[error.problem] ?? 500)
  }
  if (error instanceof HTTPException)
    return c.json({ faults: [{ path: '', message: error.message || 'refused' }] }, error.status)
  c.set('error', error)
  const message = `something went wrong inside the server; its log says what, under request ${c.get('requestId')}`
  return c.json({ faults: [{ path: '', message }] }, 500)
}
