import type { Fault } from '@forcemeat/craft/calculation'

/** A refusal of the server, with the faults it named. */
export class Refused extends Error {
  readonly status: number
  readonly faults: readonly Fault[]
  /** The whole answer, e.g. the findings that stand in the way of a release. */
  readonly answer: unknown
  constructor(status: number, faults: readonly Fault[], answer?: unknown) {
    super(faults.map((f) => (f.path ? `${f.path}: ${f.message}` : f.message)).join('\n') || `refused (${status})`)
    this.name = 'Refused'
    this.status = status
    this.faults = faults
    this.answer = answer
  }
}

/** Where a passphrase is set and the session has ended, only signing in again helps; forms keep what was typed. */
function signedOut(): void {
  if (location.pathname !== '/sign-in') location.assign('/sign-in')
}

/** Another tab may have signed in anew while a request was under way: then its old session has ended, and this browser's has not. */
async function signedInAnew(): Promise<boolean> {
  await new Promise((resolve) => setTimeout(resolve, 300))
  try {
    const now = (await (await fetch('/api/session')).json()) as { person?: string }
    return now.person !== undefined
  } catch {
    return false
  }
}

type Init = { body?: BodyInit; headers?: Record<string, string> }

async function send(method: string, path: string, init: Init = {}, again = false): Promise<unknown> {
  let response: Response
  try {
    response = await fetch(path, { method, ...init, headers: { accept: 'application/json', ...init.headers } })
  } catch {
    throw new Refused(0, [
      { path: '', message: 'the server does not answer; what you typed is still here, try again when it is back' },
    ])
  }
  // Nothing was done without a session, so it may be asked once more.
  if (response.status === 401 && !again && (await signedInAnew())) return send(method, path, init, true)
  if (response.status === 401) signedOut()
  const body: unknown = response.headers.get('content-type')?.includes('json') ? await response.json() : undefined
  if (response.ok) return body
  const faults = (body as { faults?: Fault[] } | undefined)?.faults
  throw new Refused(response.status, faults ?? [{ path: '', message: `the server answered ${response.status}` }], body)
}

/** Read a JSON address. @throws Refused */
export const get = async <T>(path: string): Promise<T> => (await send('GET', path)) as T

/** Send JSON. @throws Refused with the faults named by the server */
export const post = async <T>(path: string, body: unknown): Promise<T> =>
  (await send('POST', path, { body: JSON.stringify(body), headers: { 'content-type': 'application/json' } })) as T

/** Send bytes as they are. @throws Refused */
export const sendBytes = async <T>(method: 'PUT' | 'POST', path: string, bytes: Blob | ArrayBuffer): Promise<T> =>
  (await send(method, path, { body: bytes, headers: { 'content-type': 'application/octet-stream' } })) as T
