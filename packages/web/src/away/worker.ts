/**
 * Keeps the workbench at hand where the line is down: the built pages from the start, and what was last read of the record.
 * Entries are never handled here; they wait in the page's own list (state/unsent.ts).
 */

type Wait = Event & { waitUntil(work: Promise<unknown>): void }
type Fetch = Wait & { readonly request: Request; respondWith(answer: Promise<Response>): void }
type Worker = {
  readonly location: Location
  readonly clients: { claim(): Promise<void> }
  skipWaiting(): Promise<void>
  addEventListener(kind: 'install' | 'activate', then: (event: Wait) => void): void
  addEventListener(kind: 'fetch', then: (event: Fetch) => void): void
}
const worker = globalThis as unknown as Worker

/** Files of this build, and what tells it from others: written in by the build. */
export type Built = { readonly name: string; readonly files: readonly string[] }
const built = JSON.parse('__BUILT__') as Built

const bench = `bench-${built.name}`
/** Answers about the record, the newest of each address. */
const record = 'record'
const mostAnswers = 400
const mostBytes = 2_000_000
/** A line this slow counts as down for a page that is opened. */
const patienceMs = 4000
const shell = '/index.html'

worker.addEventListener('install', (event) => {
  event.waitUntil(
    caches
      .open(bench)
      .then((kept) => kept.addAll(built.files))
      .then(() => worker.skipWaiting()),
  )
})

worker.addEventListener('activate', (event) => {
  event.waitUntil(
    caches.keys().then(async (names) => {
      // A page of the build before may still be open and ask for its parts.
      const benches = names.filter((n) => n.startsWith('bench-') && n !== bench)
      await Promise.all(benches.slice(0, -1).map((n) => caches.delete(n)))
      await worker.clients.claim()
    }),
  )
})

/** Of this build first; a part only the build before has is found there. */
const ofBench = async (path: string): Promise<Response | undefined> =>
  (await caches.match(path, { cacheName: bench })) ?? (await caches.match(path))

async function openPage(request: Request): Promise<Response> {
  const kept = await ofBench(shell)
  if (!kept) return fetch(request)
  const late = new Promise<undefined>((resolve) => setTimeout(resolve, patienceMs))
  const answer = await Promise.race([fetch(request).catch(() => undefined), late])
  // A proxy that answers for a server that is away is the same as no answer.
  return answer && answer.status < 500 ? answer : kept
}

async function keepAnswer(request: Request, answer: Response): Promise<void> {
  const bytes = await answer.arrayBuffer()
  if (bytes.byteLength > mostBytes) return
  const kept = await caches.open(record)
  // Written anew, so that the oldest stand first.
  await kept.delete(request.url)
  await kept.put(request.url, new Response(bytes, { headers: { 'content-type': 'application/json' } }))
  const all = await kept.keys()
  await Promise.all(all.slice(0, Math.max(0, all.length - mostAnswers)).map((k) => kept.delete(k)))
}

async function readRecord(event: Fetch): Promise<Response> {
  const { request } = event
  try {
    const answer = await fetch(request)
    // Whose session has ended leaves nothing of the record on the screen's disk.
    if (answer.status === 401) event.waitUntil(caches.delete(record))
    else if (answer.ok && answer.headers.get('content-type')?.includes('application/json'))
      event.waitUntil(keepAnswer(request, answer.clone()))
    return answer
  } catch {
    return (await caches.match(request.url, { cacheName: record })) ?? Response.error()
  }
}

worker.addEventListener('fetch', (event) => {
  const { request } = event
  const at = new URL(request.url)
  if (at.origin !== worker.location.origin) return
  if (request.method !== 'GET') {
    if (at.pathname === '/api/sign-out') event.waitUntil(caches.delete(record))
    return
  }
  if (at.pathname.startsWith('/sign-in') || at.pathname.startsWith('/paper/')) return
  if (at.pathname.startsWith('/api/')) {
    // Live lines, files and exports are no part of a page that is read.
    if (/^\/api\/(live$|files\/|photos\/[0-9a-f]{64}$|people\/[^/]+\/export$)/.test(at.pathname)) return
    if (request.mode !== 'navigate') event.respondWith(readRecord(event))
    return
  }
  if (request.mode === 'navigate') event.respondWith(openPage(request))
  else if (at.pathname.startsWith('/assets/') || built.files.includes(at.pathname))
    event.respondWith(ofBench(at.pathname).then((kept) => kept ?? fetch(request)))
})
