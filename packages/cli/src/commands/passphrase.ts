import { mkdir, rm } from 'node:fs/promises'
import { passphraseFile, writePassphrase } from '@forcemeat/server/access/passphrase'
import { openSecrets, weakPin } from '@forcemeat/server/access/secrets'
import { defineCommand } from 'citty'
import { command, exit, Stop } from '../command.ts'
import { print } from '../output.ts'
import { askHidden, firstLine } from '../prompt.ts'
import { folderArg, folderOf, withRecord } from '../record.ts'

const shortest = 12

async function newSecret(question: string): Promise<string> {
  if (!process.stdin.isTTY) return firstLine()
  const phrase = await askHidden(question)
  if (phrase !== (await askHidden('Again: ')))
    throw new Stop(exit.badInput, 'passphrase: the two are not the same; nothing was changed')
  return phrase
}
const newPhrase = (): Promise<string> =>
  newSecret(`New passphrase (at least ${shortest} characters; several words are good): `)

function mustFit(phrase: string): void {
  if (phrase.length < shortest || phrase.length > 1000)
    throw new Stop(exit.badInput, `passphrase: has ${phrase.length} characters; allowed: ${shortest} to 1000`)
}

/** Set or remove the passphrase or the PIN of one person of the record. */
async function ofPerson(folder: string, person: string, pin: boolean, remove: boolean): Promise<string> {
  const known = await withRecord(folder, (ledger) => ledger.people())
  const found = known.find((p) => p.person === person)
  if (!found)
    throw new Stop(
      exit.badInput,
      `--person: ${JSON.stringify(person)} is not in the record; allowed: ${known.map((p) => p.person).join(', ') || 'a person added before'}`,
    )
  const secrets = openSecrets(folder)
  const which = pin ? 'pin' : 'passphrase'
  if (remove) {
    const owners = known.filter((p) => p.role === 'owner' && p.person !== person).map((p) => p.person)
    const { passphrase: others } = secrets.who()
    if (!pin && others.some((p) => p !== person) && !others.some((p) => owners.includes(p)))
      throw new Stop(
        exit.badInput,
        '--remove: is the last owner who can sign in; allowed: to remove those of the others first',
      )
    await secrets.set(person, which, undefined)
    return `Removed the ${which} of ${found.name}.${secrets.inUse() ? '' : ' Nobody has to sign in now.'}`
  }
  if (!pin && found.role !== 'owner' && !secrets.inUse())
    throw new Stop(
      exit.badInput,
      `--person: ${person} is a ${found.role}; allowed: an owner first, who can manage the house`,
    )
  const secret = pin ? await newSecret('New PIN (4 to 8 digits): ') : await newPhrase()
  if (pin) {
    const weak = weakPin(secret)
    if (weak) throw new Stop(exit.badInput, `PIN: ${weak}`)
  } else mustFit(secret)
  await secrets.set(person, which, secret)
  return `Set the ${which} of ${found.name}, in ${secrets.file}.`
}

const definition = defineCommand({
  meta: { name: 'passphrase', description: 'Set the passphrase that serving beyond this machine needs' },
  args: {
    ...folderArg,
    person: { type: 'string', description: 'set it for one person, who then signs in as themselves' },
    pin: { type: 'boolean', description: 'with --person: the PIN with which they take over a shared tablet' },
    remove: { type: 'boolean', description: 'remove it: then only this machine can be served' },
  },
  run: async ({ args }) => {
    const folder = folderOf(args)
    if (args.pin && args.person === undefined)
      throw new Stop(exit.badInput, '--pin: needs --person; allowed: with --person CODE')
    if (args.person !== undefined) {
      await print(await ofPerson(folder, args.person, args.pin === true, args.remove === true))
      return exit.ok
    }
    if (args.remove) {
      await rm(passphraseFile(folder), { force: true })
      await print('No passphrase is set now.')
      return exit.ok
    }
    const phrase = await newPhrase()
    mustFit(phrase)
    await mkdir(folder, { recursive: true })
    await print(
      `Set, in ${await writePassphrase(folder, phrase)}. A server that is running takes it when it is started again.`,
    )
    return exit.ok
  },
})

export const passphrase = command(
  definition,
  `
EXAMPLES
  forcemeat passphrase
  forcemeat passphrase < file-with-one-line
  forcemeat passphrase --person ida
  forcemeat passphrase --person tom --pin

Once a person has a passphrase, everybody signs in as themselves and may do what their role may: an owner all, a maker the
bench, a checker checks and decisions, a reader nothing but read. The PIN only adds entries, on a tablet already signed in.

Kept as an Argon2id hash that only this user can read. Between machines the passphrase travels as the network carries it:
put an encrypting proxy in front where others share the network.

EXIT CODES
  0  set, or removed
  2  too short, or not the same twice
  4  the folder cannot be written`,
)
