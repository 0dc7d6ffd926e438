import { createReadStream } from 'node:fs'
import { realpath, stat } from 'node:fs/promises'
import { extname, join, relative, sep } from 'node:path'
import { Readable } from 'node:stream'
import { Hono } from 'hono'
import type { AppEnv } from '../context.ts'
import { notHere } from '../http/refusal.ts'

const types: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.ico': 'image/x-icon',
  '.json': 'application/json',
  '.webmanifest': 'application/manifest+json',
  '.wasm': 'application/wasm',
  '.woff2': 'font/woff2',
  '.ttf': 'font/ttf',
  '.txt': 'text/plain; charset=utf-8',
}

/** A file of the folder, by the path of an address; undefined for anything outside, hidden, or of a kind not served. */
async function fileAt(folder: string, path: string): Promise<{ file: string; type: string; size: number } | undefined> {
  let plain: string
  try {
    plain = decodeURIComponent(path)
  } catch {
    return undefined
  }
  const type = types[extname(plain).toLowerCase()]
  if (!type || plain.includes('\0') || plain.includes('\\') || plain.split('/').some((p) => p.startsWith('.')))
    return undefined
  try {
    const root = await realpath(folder)
    const file = await realpath(join(root, plain))
    const inside = relative(root, file)
    if (inside === '' || inside === '..' || inside.startsWith(`..${sep}`)) return undefined
    const found = await stat(file)
    return found.isFile() ? { file, type, size: found.size } : undefined
  } catch {
    return undefined
  }
}

const unbuilt = `Forcemeat's server runs, but the workbench is not built.
Stop it and start with "npm start", which builds it, or run "npm run build".
Programs find what they can ask at /api/openapi.json.
`

/** Everything that is not the interface: the built workbench, with its one page for every route that names no file. */
export const workbenchRoutes = (folder: string | undefined) =>
  new Hono<AppEnv>().get('*', async (c) => {
    const { path } = c.req
    if (/^\/(api|paper)(\/|$)/.test(path)) throw notHere('address', `${c.req.method} ${path}`)
    if (folder === undefined) return c.text(unbuilt, path === '/' ? 503 : 404)
    // Below a page a dot may be part of a code, as in /rules/us.319.140.cooked; at the root and among the built files it names a file.
    const named = /^\/(assets\/|[^/]*\.)/.test(path) || Object.hasOwn(types, extname(path).toLowerCase())
    const found = await fileAt(folder, named ? path : '/index.html')
    if (!found) {
      if (named) throw notHere('file', path)
      return c.text(unbuilt, 503)
    }
    return c.body(Readable.toWeb(createReadStream(found.file)) as ReadableStream, 200, {
      'content-type': found.type,
      'content-length': String(found.size),
      // File names under /assets/ carry a hash of what is in them.
      'cache-control': path.startsWith('/assets/') ? 'public, max-age=31536000, immutable' : 'no-cache',
    })
  })
