import { mkdtempSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest'
import {
  checkPassphrase,
  hashPassphrase,
  isPassphraseHash,
  readPassphrase,
  writePassphrase,
} from '../../src/access/passphrase.ts'
import { createSessions, sessionSeconds } from '../../src/access/sessions.ts'
import { CannotServe, serve, type Serving } from '../../src/index.ts'
import { openHouse, smallKitchen, type House } from '../support.ts'

const phrase = 'nine links on a rod'
let kept: string
let clock = new Date('2026-11-25T08:00:00Z')
let house: House

beforeAll(async () => {
  kept = await hashPassphrase(phrase)
  house = await openHouse({ passphrase: kept, loopback: false, now: () => clock })
})
afterAll(() => house.close())

const form = { 'content-type': 'application/x-www-form-urlencoded' }
const cookieOf = (headers: Headers): string => headers.get('set-cookie')!.split(';')[0]!

describe('a kept passphrase', () => {
  it('is an Argon2id hash with a salt of its own', async () => {
    expect(isPassphraseHash(kept)).toBe(true)
    expect(kept).toMatch(/^\$argon2id\$v=19\$m=19456,t=2,p=1\$/)
    expect(await hashPassphrase(phrase)).not.toBe(kept)
    expect(await checkPassphrase(phrase, kept)).toBe(true)
    expect(await checkPassphrase(`${phrase} `, kept)).toBe(false)
    expect(await checkPassphrase(phrase, 'nonsense')).toBe(false)
  })

  it('lies in a file only its owner reads, and anything else there is refused', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'forcemeat-pass-'))
    expect(await readPassphrase(folder)).toBeUndefined()
    const file = await writePassphrase(folder, phrase)
    expect(statSync(file).mode & 0o777).toBe(0o600)
    expect(await checkPassphrase(phrase, (await readPassphrase(folder))!)).toBe(true)
    writeFileSync(file, 'secret in plain words')
    await expect(readPassphrase(folder)).rejects.toThrow(/does not hold a passphrase/)
    rmSync(folder, { recursive: true })
  })
})

describe('where a passphrase is set', () => {
  it('nothing but health and signing in answers without a session', async () => {
    for (const [method, path] of [
      ['GET', '/api/entries'],
      ['GET', '/api/calc'],
      ['POST', '/api/entries'],
      ['GET', '/api/openapi.json'],
      ['PUT', '/api/files'],
      ['GET', '/api/live'],
      ['GET', '/paper/batch-sheet/B-1.pdf'],
      ['POST', '/api/backup'],
      ['GET', '/API/entries'],
      ['GET', '/api/health/../entries'],
      ['GET', '//api/entries'],
    ] as const) {
      const { status, body } = await house.ask(method, path)
      expect([401, 303], `${method} ${path}`).toContain(status)
      expect(JSON.stringify(body)).not.toContain('entries":')
    }
    expect((await house.ask('GET', '/today')).headers.get('location')).toBe('/sign-in')
    const health = await house.ask('GET', '/api/health')
    expect(health.body).toEqual({ ok: true, version: '0.1.0' })
    expect((await house.ask('GET', '/sign-in')).body['text']).toContain('<form method="post" action="/api/sign-in">')
  })

  it('signing in gives a cookie that scripts and other sites cannot use, and signing out ends it', async () => {
    const signed = await house.ask('POST', '/api/sign-in', { passphrase: phrase })
    expect(signed.status).toBe(200)
    const cookie = signed.headers.get('set-cookie')!
    expect(cookie).toMatch(/HttpOnly/)
    expect(cookie).toMatch(/SameSite=Strict/)
    const headers = { cookie: cookieOf(signed.headers) }
    expect((await house.ask('GET', '/api/entries', undefined, headers)).status).toBe(200)
    expect((await house.ask('POST', '/api/sign-out', undefined, headers)).status).toBe(200)
    expect((await house.ask('GET', '/api/entries', undefined, headers)).status).toBe(401)
  })

  it('a session ends by itself', async () => {
    const signed = await house.ask('POST', '/api/sign-in', new URLSearchParams({ passphrase: phrase }).toString(), form)
    expect(signed.status).toBe(303)
    const headers = { cookie: cookieOf(signed.headers) }
    expect((await house.ask('GET', '/api/entries', undefined, headers)).status).toBe(200)
    clock = new Date(clock.getTime() + sessionSeconds * 1000)
    expect((await house.ask('GET', '/api/entries', undefined, headers)).status).toBe(401)
  })

  it('wrong passphrases are counted, also when sent at once, and the right one then waits too', async () => {
    const tries = await Promise.all(
      Array.from({ length: 12 }, () => house.ask('POST', '/api/sign-in', { passphrase: 'guess' })),
    )
    const statuses = tries.map((t) => t.status)
    expect(statuses.filter((s) => s === 401)).toHaveLength(5)
    expect(statuses.filter((s) => s === 429)).toHaveLength(7)
    const waiting = await house.ask('POST', '/api/sign-in', { passphrase: phrase })
    expect(waiting.status).toBe(429)
    expect(Number(waiting.headers.get('retry-after'))).toBeGreaterThan(0)
    clock = new Date(clock.getTime() + 16 * 60_000)
    expect((await house.ask('POST', '/api/sign-in', { passphrase: phrase })).status).toBe(200)
  })

  it('the log holds a line a request and no secret', () => {
    const text = JSON.stringify(house.log)
    expect(house.log.length).toBeGreaterThan(20)
    expect(text).not.toContain(phrase)
    expect(text).not.toContain('guess')
    expect(text).not.toContain('forcemeat-session')
    for (const line of house.log)
      expect(line).toMatchObject({
        method: expect.any(String) as string,
        status: expect.any(Number) as number,
        id: expect.any(String) as string,
      })
  })
})

describe('sessions', () => {
  it('do not grow without end, and know only what they gave out', () => {
    const sessions = createSessions(() => new Date())
    const first = sessions.open()
    for (let i = 0; i < 1000; i += 1) sessions.open()
    expect(sessions.holds(first)).toBe(false)
    expect(sessions.holds('')).toBe(false)
    expect(sessions.holds(undefined)).toBe(false)
    expect(sessions.open()).toMatch(/^[\w-]{43}$/)
  })
})

describe('on this machine', () => {
  let local: House
  beforeAll(async () => {
    local = await openHouse()
  })
  afterAll(() => local.close())

  it('every answer, refusals included, carries the strict headers', async () => {
    for (const path of ['/api/health', '/api/nope', '/']) {
      const { headers } = await local.ask('GET', path)
      const policy = headers.get('content-security-policy')!
      expect(policy).toContain("default-src 'self'")
      expect(policy).toContain("script-src 'self' 'wasm-unsafe-eval'")
      expect(policy).toContain("frame-ancestors 'none'")
      expect(policy).not.toMatch(/unsafe-inline|'unsafe-eval'|\*/)
      expect(headers.get('x-content-type-options')).toBe('nosniff')
      expect(headers.get('x-frame-options')).toBe('DENY')
      expect(headers.get('cross-origin-resource-policy')).toBe('same-origin')
      expect(headers.get('permissions-policy')).toContain('geolocation=()')
      // Nothing of the record stays in a cache of the browser's own.
      expect(headers.get('cache-control')).toBe('no-store')
      expect(headers.get('referrer-policy')).toBe('no-referrer')
      expect(headers.get('cross-origin-opener-policy')).toBe('same-origin')
      expect(headers.get('access-control-allow-origin')).toBeNull()
      expect(headers.get('x-request-id')).toMatch(/^[\w-]{12}$/)
    }
  })

  it('a name that is not this machine’s own is refused', async () => {
    for (const host of [
      'evil.example',
      'evil.example:8117',
      '127.0.0.1.evil.example',
      '0.0.0.0:8117',
      'localhost.evil.example',
    ])
      expect((await local.ask('GET', '/api/health', undefined, { host })).status, host).toBe(421)
    for (const host of ['localhost:8117', '127.0.0.1:8117', '[::1]:8117', 'LOCALHOST'])
      expect((await local.ask('GET', '/api/health', undefined, { host })).status, host).toBe(200)
  })

  it('a page of another site changes nothing', async () => {
    const draft = smallKitchen[0]
    const host = 'localhost:8117'
    for (const headers of [
      { host, origin: 'https://evil.example' },
      { host, origin: 'null' },
      { host, origin: 'http://localhost:9999' },
      { host, 'sec-fetch-site': 'cross-site' },
      { host, 'sec-fetch-site': 'same-site' },
    ] as Record<string, string>[])
      expect((await local.ask('POST', '/api/entries', draft, headers)).status, JSON.stringify(headers)).toBe(403)
    expect((await local.ledger.head()).entries).toBe(0)
    const own = await local.ask('POST', '/api/entries', draft, {
      host,
      origin: 'http://localhost:8117',
      'sec-fetch-site': 'same-origin',
    })
    expect(own.status).toBe(201)
  })

  it('a fault inside is told by its request’s number only', async () => {
    const broken = await openHouse()
    await broken.ledger.close()
    const { status, body } = await broken.ask('GET', '/api/entries')
    expect(status).toBe(503)
    expect(JSON.stringify(body)).not.toMatch(/\.ts|node_modules| at /)
    await broken.close()
  })
})

describe('listening', () => {
  const folders: string[] = []
  const fresh = (): string => {
    const folder = mkdtempSync(join(tmpdir(), 'forcemeat-serve-'))
    folders.push(folder)
    return folder
  }
  let serving: Serving | undefined
  afterEach(async () => {
    await serving?.close()
    serving = undefined
    for (const f of folders.splice(0)) rmSync(f, { recursive: true, force: true })
  })

  it('beyond this machine is refused without a passphrase, before anything is opened', async () => {
    const folder = fresh()
    for (const host of ['0.0.0.0', '::', '192.0.2.1'])
      await expect(serve({ host, port: 0, folder, log: () => undefined })).rejects.toThrow(CannotServe)
  })

  it('beyond this machine works with one, and asks for it', async () => {
    const folder = fresh()
    await writePassphrase(folder, phrase)
    serving = await serve({ host: '0.0.0.0', port: 0, folder, log: () => undefined })
    expect(serving.guarded).toBe(true)
    const { port } = new URL(serving.url)
    expect((await fetch(`http://127.0.0.1:${port}/api/entries`)).status).toBe(401)
  })

  it('on a port in use says which', async () => {
    serving = await serve({ port: 0, folder: fresh(), log: () => undefined })
    const port = Number(new URL(serving.url).port)
    await expect(serve({ port, folder: fresh(), log: () => undefined })).rejects.toThrow(`port ${port}`)
  })

  it('tells a listening page of each new entry, and hangs up when asked to stop', async () => {
    serving = await serve({ port: 0, folder: fresh(), log: () => undefined })
    const live = await fetch(`${serving.url}api/live`)
    expect(live.headers.get('content-type')).toContain('text/event-stream')
    const reader = live.body!.pipeThrough(new TextDecoderStream()).getReader()
    let text = (await reader.read()).value ?? ''
    await fetch(`${serving.url}api/entries`, { method: 'POST', body: JSON.stringify(smallKitchen[0]) })
    while (!text.includes('event: entry')) text += (await reader.read()).value ?? ''
    expect(text).toContain('"kind":"person.add"')
    expect(text).toContain('person:ana')
    const begun = performance.now()
    await serving.close()
    expect(performance.now() - begun).toBeLessThan(3000)
    for (;;) if ((await reader.read()).done) break
  })

  it('catches a page up on what it missed', async () => {
    serving = await serve({ port: 0, folder: fresh(), log: () => undefined })
    await fetch(`${serving.url}api/entries`, { method: 'POST', body: JSON.stringify(smallKitchen.slice(0, 3)) })
    const live = await fetch(`${serving.url}api/live`, { headers: { 'last-event-id': '1' } })
    const reader = live.body!.pipeThrough(new TextDecoderStream()).getReader()
    let text = ''
    while (!text.includes('id: 3')) text += (await reader.read()).value ?? ''
    expect(text).not.toContain('id: 1\n')
    expect(text).toContain('id: 2')
    await reader.cancel()
  })
})
