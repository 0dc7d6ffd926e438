import type { Fault } from '@forcemeat/craft/calculation'
import type { ContentfulStatusCode } from 'hono/utils/http-status'

/** An answer that is not what was asked for, in the one form every refusal of the server has. */
export class Refusal extends Error {
  readonly status: ContentfulStatusCode
  readonly faults: readonly Fault[]
  /** Further fields of the answer, e.g. the findings that stopped a release. */
  readonly more: Readonly<Record<string, unknown>>
  constructor(status: ContentfulStatusCode, faults: readonly Fault[], more: Readonly<Record<string, unknown>> = {}) {
    super(faults.map((f) => f.message).join('\n'))
    this.name = 'Refusal'
    this.status = status
    this.faults = faults
    this.more = more
  }
}

/** A refusal with one fault. */
export const refuse = (status: ContentfulStatusCode, message: string, path = ''): Refusal =>
  new Refusal(status, [{ path, message }])

/** 404: a thing that is not there, by what it is and what was asked for. */
export const notHere = (what: string, asked: string): Refusal =>
  refuse(404, `there is no ${what} ${JSON.stringify(asked.slice(0, 80))}`)
