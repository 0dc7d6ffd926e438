import { text } from '@forcemeat/craft/schema'
import type { Ledger, ListedEntry } from '@forcemeat/ledger'
import { Hono, type Context } from 'hono'
import { getCookie } from 'hono/cookie'
import { z } from 'zod'
import { cookie, type Door } from '../access/door.ts'
import { phraseLength, weakPin } from '../access/secrets.ts'
import type { AppEnv, House } from '../context.ts'
import { jsonLimit, readShaped } from '../http/body.ts'
import { notHere, refuse } from '../http/refusal.ts'

const phraseBody = z.strictObject({ passphrase: z.string() })
const pinBody = z.strictObject({ pin: z.string() })
const switchBody = z.strictObject({ person: text(60), pin: z.string().max(20) })

/** Every entry a person recorded, and every entry that speaks of them. */
async function entriesOf(ledger: Ledger, person: string): Promise<ListedEntry[]> {
  const all: ListedEntry[] = []
  for (;;) {
    const page = await ledger.entries({ about: `person:${person}`, after: all.at(-1)?.seq ?? 0, limit: 1000 })
    all.push(...page)
    if (page.length < 1000) return all
  }
}

/** People: their secrets, a shared tablet handed over, and everything the record holds on one. */
export function peopleRoutes({ ledger }: House, door: Door): Hono<AppEnv> {
  const { secrets, sessions, attempts } = door

  /** The person of an address, where the one who asks is that person, or an owner; before anybody signs in, the machine's own user. */
  const mine = async (c: Context<AppEnv>) => {
    const code = c.req.param('person') ?? ''
    const identity = c.get('identity')
    if (identity && (identity.by === 'pin' || (identity.role !== 'owner' && identity.person !== code)))
      throw refuse(
        403,
        'is somebody else’s; allowed: your own, signed in with your passphrase, or as an owner',
        'person',
      )
    const person = (await ledger.people()).find((p) => p.person === code)
    if (!person) throw notHere('person', code)
    return person
  }

  return new Hono<AppEnv>()
    .get('/api/people', async (c) => {
      const { passphrase, pin } = secrets.who()
      const people = await ledger.people()
      return c.json({
        mode: door.mode(),
        people: people.map((p) => ({
          ...p,
          passphrase: passphrase.includes(p.person),
          pin: pin.includes(p.person),
        })),
      })
    })
    .post('/api/people/:person/passphrase', jsonLimit, async (c) => {
      const person = await mine(c)
      const { passphrase } = await readShaped(c, phraseBody)
      if (passphrase.length < phraseLength.min || passphrase.length > phraseLength.max)
        throw refuse(
          400,
          `has ${passphrase.length} characters; allowed: ${phraseLength.min} to ${phraseLength.max}; several words are good`,
          'passphrase',
        )
      if (!secrets.inUse() && person.role !== 'owner')
        throw refuse(
          409,
          'is not an owner; allowed: an owner’s passphrase first, or nobody could manage the house',
          'person',
        )
      await secrets.set(person.person, 'passphrase', passphrase)
      sessions.closeOf(person.person, getCookie(c, cookie))
      return c.json({ ok: true })
    })
    .post('/api/people/:person/pin', jsonLimit, async (c) => {
      const person = await mine(c)
      const { pin } = await readShaped(c, pinBody)
      const weak = weakPin(pin)
      if (weak) throw refuse(400, weak, 'pin')
      await secrets.set(person.person, 'pin', pin)
      return c.json({ ok: true })
    })
    .post('/api/switch', jsonLimit, async (c) => {
      const token = getCookie(c, cookie)
      const held = sessions.find(token)
      if (door.mode() !== 'people' || !held) throw refuse(409, 'nobody signs in as themselves here', 'mode')
      const asked = await readShaped(c, switchBody)
      const wait = attempts.pin.wait(asked.person)
      if (wait > 0) {
        c.header('retry-after', String(wait))
        throw refuse(
          429,
          `too many wrong PINs; sign in with the passphrase, or wait ${Math.ceil(wait / 60)} minutes`,
          'pin',
        )
      }
      attempts.pin.failed(asked.person)
      const person = await door.personOf(asked.person)
      if (!(await door.check(asked.pin, person && secrets.of(person.person).pin))) {
        const pinFails = (sessions.find(token)?.pinFails ?? 0) + 1
        // A tablet on which PINs are guessed is nobody's any more.
        if (pinFails >= 5) sessions.close(token)
        else sessions.change(token, { ...held, pinFails })
        throw refuse(
          403,
          pinFails >= 5 ? 'is wrong once too often; this tablet is signed out' : 'is not the PIN',
          'pin',
        )
      }
      attempts.pin.passed(asked.person)
      sessions.change(token, { person: person!.person, by: 'pin', pinFails: 0 })
      return c.json({ ok: true, person: person!.person })
    })
    .get('/api/people/:person/export', async (c) => {
      const person = await mine(c)
      const kept = secrets.of(person.person)
      const entries = await entriesOf(ledger, person.person)
      return c.json(
        {
          person,
          signIn: { passphrase: kept.passphrase !== undefined, pin: kept.pin !== undefined },
          recorded: entries.filter((e) => e.by === person.person),
          about: entries.filter((e) => e.by !== person.person),
        },
        200,
        { 'content-disposition': `attachment; filename="person-${person.person}.json"` },
      )
    })
}
