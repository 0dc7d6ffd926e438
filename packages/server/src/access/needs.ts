import type { Need } from './roles.ts'

/** What each address asks, as method and path with `:name` for a part that varies. A test holds this against every route there is. */
export const needs: Readonly<Record<string, Need>> = {
  'GET /sign-in': 'open',
  'GET /sign-in.css': 'open',
  'GET /api/health': 'open',
  'GET /api/session': 'open',
  'POST /api/sign-in': 'open',
  'POST /api/sign-out': 'own',
  'POST /api/switch': 'own',
  'GET /api/people': 'own',
  'GET /api/people/:person/export': 'own',
  'POST /api/people/:person/passphrase': 'own',
  'POST /api/people/:person/pin': 'own',
  'GET /api/calc': 'read',
  'GET /api/calc/:name': 'read',
  'POST /api/calc/:name': 'read',
  'GET /api/openapi.json': 'read',
  'GET /api/entries': 'read',
  'GET /api/entries/:seq': 'read',
  'POST /api/entries': 'add',
  'GET /api/live': 'read',
  'GET /api/kitchen': 'read',
  'GET /api/instruments/:instrument': 'read',
  'GET /api/today': 'read',
  'GET /api/arrival': 'read',
  'GET /api/lots': 'read',
  'GET /api/lots/:lot': 'read',
  'GET /api/recipes': 'read',
  'GET /api/recipes/:recipe': 'read',
  'GET /api/recipes/:recipe/file': 'read',
  'GET /api/recipes/:recipe/curves': 'read',
  'POST /api/recipes/read': 'read',
  'GET /api/materials': 'read',
  'GET /api/materials/:material': 'read',
  'GET /api/rules': 'read',
  'GET /api/rules/:id': 'read',
  'GET /api/batches': 'read',
  'GET /api/batches/:batch': 'read',
  'POST /api/batches/:batch/decide': 'decide',
  'GET /api/batches/:batch/curves/:seq': 'read',
  'GET /api/batches/:batch/ferment': 'read',
  'GET /api/batches/:batch/dry': 'read',
  'POST /api/curves/read': 'read',
  'GET /api/feed': 'read',
  'GET /api/feed/:batch': 'read',
  'POST /api/feed/:batch/readings': 'add',
  'POST /api/feed/:batch/close': 'add',
  'GET /api/trace/lot/:lot': 'read',
  'GET /api/trace/pack/:pack': 'read',
  'GET /api/recall': 'read',
  'GET /api/recall/:type/:id': 'read',
  'GET /api/recall/:type/:id/csv': 'read',
  'GET /paper/recall/:type/:file': 'read',
  'GET /api/deviations': 'read',
  'GET /api/deviations/:deviation': 'read',
  'GET /api/doubts': 'read',
  'GET /api/businesses': 'read',
  'GET /api/labels': 'read',
  'POST /api/labels/proof': 'read',
  'POST /api/labels/pdf': 'read',
  'POST /api/labels/approve': 'decide',
  'GET /paper/label/:file': 'read',
  'PUT /api/files': 'add',
  'GET /api/files/:sha256': 'read',
  'GET /api/charts/:recipe': 'read',
  'GET /api/hazard-plan/:recipe': 'read',
  'POST /api/hazard-plan/:recipe/sign': 'decide',
  'GET /paper/hazard-plan/:file': 'read',
  'GET /paper/instrument/:file': 'read',
  'GET /paper/deviation/:file': 'read',
  'GET /paper/record/:type/:file': 'read',
  'GET /paper/entries.pdf': 'read',
  'GET /api/photos/:of/:id': 'read',
  'GET /api/photos/:sha256': 'read',
  'GET /api/rooms': 'read',
  'GET /api/rooms/:room/calendar': 'read',
  'GET /api/slow': 'read',
  'GET /api/orders': 'read',
  'GET /api/prices': 'read',
  'GET /api/resources': 'read',
  'GET /api/plan': 'read',
  'GET /paper/plan/:file': 'read',
  'GET /api/import': 'read',
  'POST /api/import/:kind/read': 'read',
  'GET /api/backup': 'read',
  'POST /api/backup': 'manage',
  'POST /api/demo': 'manage',
  'GET /paper/:kind/:file': 'read',
}

type Pattern = { readonly method: string; readonly path: RegExp; readonly need: Need }

const patterns: readonly Pattern[] = Object.entries(needs).map(([key, need]) => {
  const [method, path] = key.split(' ') as [string, string]
  return { method, path: new RegExp(`^${path.replaceAll('.', '\\.').replaceAll(/:\w+/g, '[^/]+')}/?$`), need }
})

/** Name in the table of a route as the router has it: without what a parameter must look like. */
export const routeKey = (method: string, path: string): string => `${method} ${path.replaceAll(/\{[^{}]*\}/g, '')}`

/** What an address asks. Of those nobody has named, reading is a reader's, and what changes something the owner's alone. */
export function needOf(method: string, path: string): Need {
  const asked = method === 'HEAD' ? 'GET' : method
  const found = patterns.find((p) => p.method === asked && p.path.test(path))
  if (found) return found.need
  return asked === 'GET' ? 'read' : 'manage'
}
