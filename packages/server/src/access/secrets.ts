import { chmodSync, existsSync, mkdirSync, readFileSync, renameSync, statSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { z } from 'zod'
import { code } from '@forcemeat/ledger/code'
import { hashPassphrase, isPassphraseHash } from './passphrase.ts'

const hash = z.string().refine(isPassphraseHash)
const shape = z.record(code(), z.strictObject({ passphrase: hash.optional(), pin: hash.optional() }))
type Kept = z.infer<typeof shape>

/** Length of a passphrase, characters; and of a PIN, digits. */
export const phraseLength = { min: 12, max: 1000 } as const
export const pinLength = { min: 4, max: 8 } as const

/** Where the secrets of people lie: beside the record, never in it, so that no export or backup carries them. */
export const secretsFile = (folder: string): string => join(folder, 'people.json')

export type Secrets = {
  readonly file: string
  /** True once anybody has a passphrase: then every person signs in as themselves. */
  readonly inUse: () => boolean
  readonly of: (person: string) => { readonly passphrase?: string | undefined; readonly pin?: string | undefined }
  /** Keep a new secret, or with `undefined` forget one. Hashed here; what was typed is kept nowhere. */
  readonly set: (person: string, which: 'passphrase' | 'pin', secret: string | undefined) => Promise<void>
  /** People with a passphrase, and with a PIN. */
  readonly who: () => { readonly passphrase: readonly string[]; readonly pin: readonly string[] }
}

/** Read the secrets of a record's people; read anew when another program has written them. @throws Error where the file holds something else */
export function openSecrets(folder: string): Secrets {
  const file = secretsFile(folder)
  let kept: Kept = {}
  let seen = -1
  const read = (): Kept => {
    const stamp = existsSync(file) ? statSync(file).mtimeMs : 0
    if (stamp === seen) return kept
    if (stamp === 0) kept = {}
    else {
      let given: unknown
      try {
        given = JSON.parse(readFileSync(file, 'utf8'))
      } catch {
        throw new Error(`${file} does not hold the passphrases of people; set them again with "forcemeat passphrase"`)
      }
      const parsed = shape.safeParse(given)
      if (!parsed.success)
        throw new Error(`${file} does not hold the passphrases of people; set them again with "forcemeat passphrase"`)
      kept = parsed.data
    }
    seen = stamp
    return kept
  }
  read()
  return {
    file,
    inUse: () => Object.values(read()).some((s) => s.passphrase !== undefined),
    of: (person) => (Object.hasOwn(read(), person) ? read()[person]! : {}),
    set: async (person, which, secret) => {
      const hashed = secret === undefined ? undefined : await hashPassphrase(secret)
      const all = read()
      const { [which]: _, ...rest } = Object.hasOwn(all, person) ? all[person]! : {}
      const next: Kept = { ...all, [person]: hashed === undefined ? rest : { ...rest, [which]: hashed } }
      mkdirSync(dirname(file), { recursive: true })
      writeFileSync(`${file}.new`, `${JSON.stringify(next, null, 2)}\n`, { mode: 0o600 })
      chmodSync(`${file}.new`, 0o600)
      renameSync(`${file}.new`, file)
      kept = next
      seen = statSync(file).mtimeMs
    },
    who: () => {
      const all = Object.entries(read())
      const having = (which: 'passphrase' | 'pin') => all.filter(([, s]) => s[which] !== undefined).map(([p]) => p)
      return { passphrase: having('passphrase'), pin: having('pin') }
    },
  }
}

/** Why a PIN is too easy to guess, or undefined. */
export function weakPin(pin: string): string | undefined {
  const allowed = `allowed: ${pinLength.min} to ${pinLength.max} digits, not all the same and not in a row`
  if (!/^\d+$/.test(pin) || pin.length < pinLength.min || pin.length > pinLength.max) return `is not a PIN; ${allowed}`
  const steps = new Set(
    pin
      .split('')
      .slice(1)
      .map((d, i) => Number(d) - Number(pin[i])),
  )
  return steps.size === 1 && [0, 1, -1].includes([...steps][0]!)
    ? `is the first that anybody would try; ${allowed}`
    : undefined
}
