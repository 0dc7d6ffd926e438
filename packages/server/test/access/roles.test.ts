import { mkdtempSync, readFileSync, statSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { facts, type Draft, type FactKind } from '@forcemeat/ledger'
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import { needOf, needs, routeKey } from '../../src/access/needs.ts'
import { adds, kindsOf, may, roles, type Role } from '../../src/access/roles.ts'
import { openSecrets, weakPin } from '../../src/access/secrets.ts'
import { perMinute } from '../../src/access/pace.ts'
import { openHouse, smallKitchen, type House } from '../support.ts'

const phrase = (person: string) => `twelve links of ${person}`
const code = { owner: 'ana', maker: 'mo', checker: 'cy', reader: 'rea' } as const satisfies Record<Role, string>
const people: Draft[] = (['maker', 'checker', 'reader'] as const).map((role) => ({
  kind: 'person.add',
  by: 'ana',
  body: { person: code[role], name: `The ${role}`, role },
}))

let house: House
let clock = new Date('2026-11-25T08:00:00Z')
const cookies = {} as Record<Role, string>
const pins = {} as Record<'maker' | 'owner', string>

const signIn = async (person: string): Promise<string> => {
  const { status, headers } = await house.ask('POST', '/api/sign-in', { person, passphrase: phrase(person) })
  expect(status).toBe(200)
  return headers.get('set-cookie')!.split(';')[0]!
}
const ask = (cookie: string, method: string, path: string, body?: unknown) => house.ask(method, path, body, { cookie })

beforeAll(async () => {
  house = await openHouse({ loopback: false, now: () => clock })
  await house.ledger.append([...smallKitchen, ...people])
  // Before anybody has a passphrase, the machine's own user sets the first: an owner's.
  expect((await house.ask('POST', '/api/people/mo/passphrase', { passphrase: phrase('mo') })).status).toBe(409)
  for (const person of Object.values(code)) {
    const cookie = house.ask('GET', '/api/session').then(({ body }) => body['mode'] === 'people')
    if (await cookie) {
      const set = await ask(cookies.owner, 'POST', `/api/people/${person}/passphrase`, { passphrase: phrase(person) })
      expect(set.status).toBe(200)
    } else {
      expect((await house.ask('POST', `/api/people/${person}/passphrase`, { passphrase: phrase(person) })).status).toBe(
        200,
      )
      cookies.owner = await signIn('ana')
    }
  }
  for (const role of roles) cookies[role] = await signIn(code[role])
  for (const [role, pin] of [
    ['maker', '4719'],
    ['owner', '8203'],
  ] as const) {
    expect((await ask(cookies.owner, 'POST', `/api/people/${code[role]}/pin`, { pin })).status).toBe(200)
    pins[role] = await signIn(code[role])
    expect((await ask(pins[role], 'POST', '/api/switch', { person: code[role], pin })).status).toBe(200)
  }
}, 60_000)
afterAll(() => house.close())

const registered = () => [
  ...new Set(
    house.app.routes
      .filter((r) => r.method !== 'ALL' && r.path !== '*' && r.path !== '/*')
      .map((r) => routeKey(r.method, r.path)),
  ),
]
/** What a path's variable parts are filled with: nothing there is, so that nothing is changed. */
const filled = (path: string) =>
  path
    .replace(':file', 'x.pdf')
    .replaceAll(/:(\w+)/g, (_, name: string) => (name === 'person' ? 'nobody-here' : 'none'))
/** Lines that stay open, and signing out, which would end the session of the next row. */
const apart = new Set(['GET /api/live', 'POST /api/sign-out', 'POST /api/demo', 'POST /api/backup'])

describe('every address and every role', () => {
  it('has every route that changes something in the table, and no address that is not one', () => {
    expect(registered().filter((r) => !r.startsWith('GET ') && !(r in needs))).toEqual([])
    expect(Object.keys(needs).filter((r) => !registered().includes(r))).toEqual([])
    expect(registered().length).toBeGreaterThan(40)
  })

  it('answers a role what its table says, and refuses it the rest with 403', async () => {
    const wrong: string[] = []
    for (const route of registered()) {
      if (apart.has(route)) continue
      const [method, path] = route.split(' ') as [string, string]
      const need = needOf(method, filled(path))
      const body = method === 'GET' ? undefined : '{}'
      const signed = [
        ...roles.map((role) => ({ name: role, cookie: cookies[role], may: may({ role, by: 'passphrase' }, need) })),
        { name: 'maker by PIN', cookie: pins.maker, may: may({ role: 'maker', by: 'pin' }, need) },
        { name: 'owner by PIN', cookie: pins.owner, may: may({ role: 'owner', by: 'pin' }, need) },
        { name: 'nobody', cookie: '', may: need === 'open' },
      ]
      for (const who of signed) {
        const { status, body: answer } = await house.ask(
          method,
          filled(path),
          body,
          who.cookie ? { cookie: who.cookie } : {},
        )
        const refused = status === 401 || (status === 403 && JSON.stringify(answer).includes('"role"'))
        if (refused === who.may && !(need === 'open' && status === 401)) wrong.push(`${route} ${who.name}: ${status}`)
      }
    }
    expect(wrong).toEqual([])
    // The empty sign-ins of the table count as tries.
    clock = new Date(clock.getTime() + 16 * 60_000)
  })

  it('refuses the house to all but its owner, by passphrase', async () => {
    for (const path of ['/api/backup', '/api/demo'])
      for (const [who, cookie] of [...Object.entries(cookies), ['owner by PIN', pins.owner]] as const) {
        const { status } = await ask(cookie, 'POST', path)
        expect(status === 403, `${path} ${who}`).toBe(who !== 'owner')
      }
  })

  it('leaves addresses nobody named to the owner', async () => {
    expect((await ask(cookies.owner, 'POST', '/api/nowhere')).status).toBe(404)
    for (const role of ['maker', 'checker', 'reader'] as const)
      expect((await ask(cookies[role], 'POST', '/api/nowhere')).status).toBe(403)
  })
})

describe('every kind of entry and every role', () => {
  it('is taken or refused as the table says', async () => {
    for (const kind of Object.keys(facts) as FactKind[]) {
      // Signed by routes of their own, whoever asks.
      if (kind === 'batch.decide' || kind === 'label.approve' || kind === 'hazard.sign') continue
      for (const [role, by] of [
        ...roles.map((r) => [r, 'passphrase'] as const),
        ['maker', 'pin'],
        ['owner', 'pin'],
      ] as const) {
        const cookie = by === 'pin' ? pins[role] : cookies[role]
        const { status, body } = await ask(cookie, 'POST', '/api/entries', { kind, body: {} })
        // An empty body is a fault of the entry (400) only once the person may add it (403).
        expect(status, `${kind} ${role} by ${by}`).toBe(kindsOf({ role, by }).includes(kind) ? 400 : 403)
        expect(body['faults']).toBeDefined()
      }
    }
  })

  it('names every kind for the owner', () => {
    expect([...adds.owner].sort()).toEqual(Object.keys(facts).sort())
  })

  it('goes under the name of who is signed in, and no other', async () => {
    const draft = { kind: 'lot.adjust', body: { lot: 'PS-1', kg: -1, reason: 'waste', on: '2026-11-25' } }
    const mine = await ask(pins.maker, 'POST', '/api/entries', draft)
    expect(mine.body['entries']).toMatchObject([{ by: 'mo' }])
    const other = await ask(pins.maker, 'POST', '/api/entries', { ...draft, by: 'ana' })
    expect(other.status).toBe(403)
    expect(other.body['faults']).toMatchObject([{ path: 'by' }])
  })

  it('of another is corrected or withdrawn only by who checks', async () => {
    const [entry] = await house.ledger.append([
      { kind: 'lot.adjust', by: 'ana', body: { lot: 'PS-1', kg: -1, reason: 'waste', on: '2026-11-25' } },
    ])
    const withdraw = { kind: 'entry.withdraw', body: { entry: entry!.seq }, why: 'counted twice' }
    const refused = await ask(cookies.maker, 'POST', '/api/entries', withdraw)
    expect([refused.status, refused.body['faults']]).toMatchObject([403, [{ path: 'body.entry' }]])
    expect((await ask(cookies.checker, 'POST', '/api/entries', withdraw)).status).toBe(201)
  })

  it('of the house or the office is no checker’s to take away', async () => {
    const { entries } = (await ask(cookies.owner, 'GET', '/api/entries?kind=kitchen.set')).body as {
      entries: { seq: number }[]
    }
    const order = {
      kind: 'order.take',
      body: {
        order: 'O-1',
        customer: 'The inn',
        on: '2026-11-25',
        due: '2026-11-28',
        lines: [{ recipe: 'HUNTER', kg: 5 }],
      },
    }
    const taken = await ask(cookies.owner, 'POST', '/api/entries', order)
    expect(taken.status, JSON.stringify(taken.body)).toBe(201)
    for (const seq of [entries[0]!.seq, (taken.body['entries'] as { seq: number }[])[0]!.seq]) {
      const withdraw = { kind: 'entry.withdraw', body: { entry: seq }, why: 'not mine' }
      const refused = await ask(cookies.checker, 'POST', '/api/entries', withdraw)
      expect([refused.status, refused.body['faults']]).toMatchObject([403, [{ path: 'body.entry' }]])
    }
    expect((await ask(cookies.owner, 'GET', '/api/kitchen')).body['kitchen']).not.toBe(null)
  })

  it('that decides is a checker’s or an owner’s; a maker may hold', async () => {
    const decision = (by: string, what: string) => ({ decision: what, reasons: ['looked at'], by })
    expect((await ask(cookies.maker, 'POST', '/api/batches/B-1/decide', decision('mo', 'release'))).status).toBe(403)
    expect((await ask(cookies.maker, 'POST', '/api/batches/B-1/decide', decision('cy', 'hold'))).status).toBe(403)
    expect((await ask(cookies.maker, 'POST', '/api/batches/B-1/decide', decision('mo', 'hold'))).status).toBe(201)
    expect((await ask(cookies.checker, 'POST', '/api/batches/B-1/decide', decision('cy', 'release'))).status).toBe(409)
  })
})

describe('signing in as oneself', () => {
  it('says who is here and what they may', async () => {
    expect((await house.ask('GET', '/api/session')).body).toEqual({ mode: 'people' })
    expect((await ask(cookies.reader, 'GET', '/api/session')).body).toMatchObject({
      person: 'rea',
      role: 'reader',
      kinds: [],
    })
    expect((await ask(pins.owner, 'GET', '/api/session')).body).toMatchObject({ by: 'pin', may: { manage: false } })
  })

  it('with a wrong passphrase, a name nobody has, or another’s passphrase is one and the same refusal', async () => {
    const answers = []
    for (const given of [
      { person: 'mo', passphrase: 'a guess at it all' },
      { person: 'nobody', passphrase: phrase('mo') },
      { person: 'mo', passphrase: phrase('ana') },
      { person: '__proto__', passphrase: '' },
    ])
      answers.push(await house.ask('POST', '/api/sign-in', given))
    expect(new Set(answers.map((a) => `${a.status} ${JSON.stringify(a.body)}`)).size).toBe(1)
    expect(answers[0]!.status).toBe(401)
    clock = new Date(clock.getTime() + 16 * 60_000)
  })

  it('is shut for a person after ten wrong tries, from wherever they come', async () => {
    const statuses = []
    for (let i = 0; i < 12; i += 1) {
      statuses.push((await house.ask('POST', '/api/sign-in', { person: 'rea', passphrase: `guess ${i}` })).status)
      if (i === 4 || i === 9) clock = new Date(clock.getTime() + 60_000)
    }
    expect(statuses.slice(0, 5)).toEqual([401, 401, 401, 401, 401])
    expect(statuses.at(-1)).toBe(429)
    clock = new Date(clock.getTime() + 16 * 60_000)
    cookies.reader = await signIn('rea')
  })

  it('ends for someone who works here no more, and when another sets their passphrase anew', async () => {
    const before = await signIn('cy')
    expect((await ask(before, 'GET', '/api/today')).status).toBe(200)
    await ask(cookies.owner, 'POST', '/api/people/cy/passphrase', { passphrase: phrase('cy') })
    expect((await ask(before, 'GET', '/api/today')).status).toBe(401)
    cookies.checker = await signIn('cy')
    const rea = (await house.ledger.people()).find((p) => p.person === 'rea')!
    await house.ledger.append([
      {
        kind: 'person.add',
        by: 'ana',
        corrects: rea.seq,
        why: 'left',
        body: { person: 'rea', name: rea.name, role: 'reader', left: true },
      },
    ])
    expect((await ask(cookies.reader, 'GET', '/api/today')).status).toBe(401)
  })

  it('by the page’s own form, which names no origin, is taken; the same from another site is not', async () => {
    const form = new URLSearchParams({ person: 'ana', passphrase: phrase('ana') }).toString()
    const headers = { 'content-type': 'application/x-www-form-urlencoded', origin: 'null' }
    const own = await house.ask('POST', '/api/sign-in', form, { ...headers, 'sec-fetch-site': 'same-origin' })
    expect([own.status, own.headers.get('location')]).toEqual([303, '/'])
    for (const site of ['cross-site', 'same-site'])
      expect((await house.ask('POST', '/api/sign-in', form, { ...headers, 'sec-fetch-site': site })).status).toBe(403)
    expect((await house.ask('POST', '/api/sign-in', form, headers)).status).toBe(403)
  })

  it('a page of another site changes nothing, cookie or not', async () => {
    const { status } = await house.ask('POST', '/api/entries', smallKitchen[1], {
      cookie: cookies.owner,
      host: 'kitchen.local',
      origin: 'https://evil.example',
    })
    expect(status).toBe(403)
  })

  it('a session that asks too often waits', async () => {
    const cookie = await signIn('mo')
    let last = 0
    for (let i = 0; i <= perMinute.write; i += 1) last = (await ask(cookie, 'POST', '/api/entries', '{}')).status
    expect(last).toBe(429)
    clock = new Date(clock.getTime() + 61_000)
    expect((await ask(cookie, 'POST', '/api/entries', '{}')).status).toBe(400)
  })
})

describe('a shared tablet', () => {
  it('is signed out when PINs are guessed on it', async () => {
    const tablet = await signIn('mo')
    const statuses = []
    for (const pin of ['0001', '1112', '2223', '3334', '4445'])
      statuses.push((await ask(tablet, 'POST', '/api/switch', { person: 'ana', pin })).status)
    expect(statuses).toEqual([403, 403, 403, 403, 403])
    expect((await ask(tablet, 'GET', '/api/today')).status).toBe(401)
    const again = await signIn('mo')
    expect((await ask(again, 'POST', '/api/switch', { person: 'ana', pin: '8203' })).status).toBe(429)
  })

  it('cannot be taken over without a session on it', async () => {
    expect((await house.ask('POST', '/api/switch', { person: 'mo', pin: '4719' })).status).toBe(401)
  })

  it('takes no PIN that anybody would try first', () => {
    for (const pin of ['1111', '1234', '9876', '12', '123456789', 'abcd', '']) expect(weakPin(pin), pin).toBeDefined()
    for (const pin of ['4719', '1357', '002200']) expect(weakPin(pin), pin).toBeUndefined()
  })
})

describe('everything on a person', () => {
  it('goes out to themselves and to an owner, and holds no secret', async () => {
    expect((await ask(cookies.checker, 'GET', '/api/people/mo/export')).status).toBe(403)
    const own = await ask(cookies.maker, 'GET', '/api/people/mo/export')
    expect(own.body).toMatchObject({ person: { person: 'mo' }, signIn: { passphrase: true, pin: true } })
    expect((own.body['recorded'] as unknown[]).length).toBeGreaterThan(0)
    expect((own.body['about'] as { kind: string }[]).map((e) => e.kind)).toEqual(['person.add'])
    expect(own.body['text'] ?? JSON.stringify(own.body)).not.toContain('argon2id')
  })

  it('secrets are in a file of their own that only its user reads, and in no entry, answer, log line or backup', async () => {
    const file = join(house.folder, 'people.json')
    expect(statSync(file).mode & 0o777).toBe(0o600)
    expect(readFileSync(file, 'utf8')).toContain('$argon2id$')
    const { file: copy } = await house.ledger.backup(join(house.folder, 'copy.db'))
    expect(readFileSync(copy).includes('argon2id')).toBe(false)
    const said = JSON.stringify([
      await house.ledger.entries({ limit: 1000 }),
      house.log,
      (await ask(cookies.owner, 'GET', '/api/people')).body,
    ])
    for (const secret of ['argon2id', phrase('ana'), phrase('mo'), '4719', 'forcemeat-session'])
      expect(said.includes(secret), secret).toBe(false)
  })

  it('what another program sets is taken at once', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'forcemeat-secrets-'))
    const [one, other] = [openSecrets(folder), openSecrets(folder)]
    expect(one.inUse()).toBe(false)
    await other.set('ana', 'passphrase', phrase('ana'))
    expect(one.inUse()).toBe(true)
    await other.set('ana', 'passphrase', undefined)
  })
})

describe('a live line', () => {
  it('ends with its session', async () => {
    vi.useFakeTimers({ toFake: ['setInterval', 'clearInterval'] })
    try {
      const cookie = await signIn('cy')
      const response = await house.app.request('/api/live', { headers: { cookie } })
      const reader = response.body!.getReader()
      await reader.read()
      vi.advanceTimersByTime(16_000)
      expect(new TextDecoder().decode((await reader.read()).value)).toContain('still here')
      await ask(cookie, 'POST', '/api/sign-out')
      vi.advanceTimersByTime(16_000)
      expect((await reader.read()).done).toBe(true)
    } finally {
      vi.useRealTimers()
    }
  })
})
