import { argon2, randomBytes, timingSafeEqual } from 'node:crypto'
import { chmod, readFile, rename, writeFile } from 'node:fs/promises'
import { join } from 'node:path'

/** Cost: 19 MiB, 2 passes, 1 lane, the least OWASP's password storage sheet names for Argon2id. */
const cost = { memory: 19_456, passes: 2, parallelism: 1 } as const
const tagLength = 32

const derive = (
  phrase: string,
  nonce: Buffer,
  { memory, passes, parallelism }: { memory: number; passes: number; parallelism: number },
  length: number,
) =>
  new Promise<Buffer>((resolve, reject) => {
    argon2(
      'argon2id',
      { message: Buffer.from(phrase.normalize('NFKC')), nonce, memory, passes, parallelism, tagLength: length },
      (error, key) => (error ? reject(error) : resolve(Buffer.from(key))),
    )
  })

const b64 = (b: Buffer): string => b.toString('base64').replace(/=+$/, '')

/** A passphrase as it is kept: Argon2id (RFC 9106) in PHC string form, with a fresh 16-byte salt. */
export async function hashPassphrase(phrase: string): Promise<string> {
  const nonce = randomBytes(16)
  const key = await derive(phrase, nonce, cost, tagLength)
  return `$argon2id$v=19$m=${cost.memory},t=${cost.passes},p=${cost.parallelism}$${b64(nonce)}$${b64(key)}`
}

const form = /^\$argon2id\$v=19\$m=(\d{1,7}),t=(\d{1,2}),p=(\d{1,2})\$([A-Za-z0-9+/]{11,86})\$([A-Za-z0-9+/]{22,86})$/

/** True where a kept text has the form `hashPassphrase` gives. */
export const isPassphraseHash = (kept: string): boolean => form.test(kept)

/** True where the phrase is the one kept; takes as long for a wrong one. */
export async function checkPassphrase(phrase: string, kept: string): Promise<boolean> {
  const m = form.exec(kept)
  if (!m) return false
  const wanted = Buffer.from(m[5]!, 'base64')
  const given = { memory: Number(m[1]), passes: Number(m[2]), parallelism: Number(m[3]) }
  const key = await derive(phrase, Buffer.from(m[4]!, 'base64'), given, wanted.length)
  return timingSafeEqual(key, wanted)
}

/** Where a record's passphrase lies; FORCEMEAT_PASSPHRASE_FILE names another place. */
export const passphraseFile = (folder: string): string =>
  process.env['FORCEMEAT_PASSPHRASE_FILE'] ?? join(folder, 'passphrase')

/** The kept passphrase, or undefined where none is set. @throws Error where the file holds something else */
export async function readPassphrase(folder: string): Promise<string | undefined> {
  const file = passphraseFile(folder)
  let kept: string
  try {
    kept = (await readFile(file, 'utf8')).trim()
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT' && process.env['FORCEMEAT_PASSPHRASE_FILE'] === undefined)
      return undefined
    throw new Error(`the passphrase file ${file} cannot be read: ${(error as Error).message}`, { cause: error })
  }
  if (!isPassphraseHash(kept))
    throw new Error(
      `${file} does not hold a passphrase as "forcemeat passphrase" writes it; set it again with that command`,
    )
  return kept
}

/** Keep a passphrase for the record in `folder`; readable by its owner only, replaced in one step. */
export async function writePassphrase(folder: string, phrase: string): Promise<string> {
  const file = passphraseFile(folder)
  const fresh = `${file}.new`
  await writeFile(fresh, `${await hashPassphrase(phrase)}\n`, { mode: 0o600 })
  await chmod(fresh, 0o600)
  await rename(fresh, file)
  return file
}
