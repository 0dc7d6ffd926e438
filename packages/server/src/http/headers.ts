import type { MiddlewareHandler } from 'hono'
import type { AppEnv } from '../context.ts'

/** Scripts, styles and data from this server only; WebAssembly because the blend solver is one. */
export const contentSecurityPolicy = [
  "default-src 'self'",
  "script-src 'self' 'wasm-unsafe-eval'",
  "style-src 'self'",
  "img-src 'self' data: blob:",
  "font-src 'self'",
  "connect-src 'self'",
  "worker-src 'self'",
  "object-src 'none'",
  "base-uri 'none'",
  "form-action 'self'",
  "frame-ancestors 'none'",
].join('; ')

/** On every answer, errors included. Nothing of the record stays in a cache unless the route says so. */
export const secureHeaders: MiddlewareHandler<AppEnv> = async (c, next) => {
  await next()
  const h = c.res.headers
  h.set('content-security-policy', contentSecurityPolicy)
  h.set('x-content-type-options', 'nosniff')
  h.set('referrer-policy', 'no-referrer')
  h.set('x-frame-options', 'DENY')
  h.set('cross-origin-opener-policy', 'same-origin')
  h.set('cross-origin-resource-policy', 'same-origin')
  h.set('permissions-policy', 'camera=(), microphone=(), geolocation=(), payment=()')
  if (!h.has('cache-control')) h.set('cache-control', 'no-store')
}
