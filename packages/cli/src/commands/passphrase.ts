import { mkdir, rm } from 'node:fs/promises'
import { passphraseFile, writePassphrase } from '@forcemeat/server/access/passphrase'
import { defineCommand } from 'citty'
import { command, exit, Stop } from '../command.ts'
import { print } from '../output.ts'
import { askHidden, firstLine } from '../prompt.ts'
import { folderArg, folderOf } from '../record.ts'

const shortest = 12

async function newPhrase(): Promise<string> {
  if (!process.stdin.isTTY) return firstLine()
  const phrase = await askHidden(`New passphrase (at least ${shortest} characters; several words are good): `)
  if (phrase !== (await askHidden('Again: ')))
    throw new Stop(exit.badInput, 'passphrase: the two are not the same; nothing was changed')
  return phrase
}

const definition = defineCommand({
  meta: { name: 'passphrase', description: 'Set the passphrase that serving beyond this machine needs' },
  args: { ...folderArg, remove: { type: 'boolean', description: 'remove it: then only this machine can be served' } },
  run: async ({ args }) => {
    const folder = folderOf(args)
    if (args.remove) {
      await rm(passphraseFile(folder), { force: true })
      await print('No passphrase is set now.')
      return exit.ok
    }
    const phrase = await newPhrase()
    if (phrase.length < shortest || phrase.length > 1000)
      throw new Stop(exit.badInput, `passphrase: has ${phrase.length} characters; allowed: ${shortest} to 1000`)
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

Kept as an Argon2id hash that only this user can read. Between machines the passphrase travels as the network carries it:
put an encrypting proxy in front where others share the network.

EXIT CODES
  0  set, or removed
  2  too short, or not the same twice
  4  the folder cannot be written`,
)
