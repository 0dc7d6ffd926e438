import { existsSync } from 'node:fs'
import { resolve } from 'node:path'
import { fileOf, openLedger, type Ledger } from '@forcemeat/ledger'
import { exit, Stop } from './command.ts'

/** The option every command that touches the record has. */
export const folderArg = {
  folder: {
    type: 'string',
    alias: 'f',
    valueHint: 'folder',
    description: 'folder of the record; FORCEMEAT_RECORD, or ./record, unless given',
  },
} as const

export const folderOf = (args: { readonly folder?: string | undefined }): string =>
  resolve(args.folder ?? process.env['FORCEMEAT_RECORD'] ?? 'record')

/** Open the record for some work and close it after; one that is not there is named, never made. */
export async function withRecord<T>(folder: string, work: (ledger: Ledger) => Promise<T>): Promise<T> {
  if (!existsSync(fileOf({ folder })))
    throw new Stop(
      exit.badInput,
      `forcemeat: there is no record in ${folder}; --folder names another place, "forcemeat serve" begins one`,
    )
  const ledger = await openLedger({ folder })
  try {
    return await work(ledger)
  } finally {
    await ledger.close()
  }
}
