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

/** Where what there is of a kind is listed. */
const lists: Readonly<Record<string, string>> = {
  address: '/api/openapi.json',
  batch: '/api/batches',
  lot: '/api/lots',
  recipe: '/api/recipes',
  'version of this recipe': '/api/recipes/:recipe',
  instrument: '/api/kitchen',
  person: '/api/kitchen',
  deviation: '/api/deviations',
  rule: '/api/rules',
  material: '/api/materials',
  calculation: '/api/calc',
  entry: '/api/entries',
  pack: '/api/batches/:batch',
  paper: '/api/openapi.json',
  'kind of recall': '/api/openapi.json',
}

/** 404: a thing that is not there, by what it is and what was asked for, and where those that are there are listed. */
export const notHere = (what: string, asked: string): Refusal => {
  const list = Object.hasOwn(lists, what) ? `; those there are: GET ${lists[what]}` : ''
  return refuse(404, `${JSON.stringify(asked.slice(0, 80))} is not here${list}`, what)
}
