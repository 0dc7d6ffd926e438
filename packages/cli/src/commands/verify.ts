import { RecordError, type VerifyReport } from '@forcemeat/ledger'
import { defineCommand } from 'citty'
import { command, exit, Stop } from '../command.ts'
import { print, progress, say } from '../output.ts'
import { folderArg, folderOf, withRecord } from '../record.ts'

/** Entries up to which the derived tables are held against the entries unasked. */
const viewsUpTo = 200_000

function expected(text: string): { entries: number; head: string } {
  const m = /^(\d{1,12}):([0-9a-f]{64})$/.exec(text)
  if (!m)
    throw new Stop(exit.badInput, '--expect: is not a noted head; allowed: NUMBER:HASH, as "412:" and 64 hex digits')
  return { entries: Number(m[1]), head: m[2]! }
}

const shown = (r: VerifyReport): string =>
  [
    r.ok ? 'The record verifies.' : 'THE RECORD DOES NOT VERIFY.',
    `${r.entries} entries hold, head ${r.head ?? 'none'}; ${r.files.count} files`,
    ...(r.broken ? [`entry ${r.broken.seq}: ${r.broken.because}`] : []),
    ...r.files.broken.map((f) => `file ${f.sha256}: ${f.because}`),
    ...r.damage.map((d) => `database: ${d}`),
    ...r.viewRows.map((v) => `derived table ${v.table}, row ${v.row}: ${v.because}`),
    ...(r.viewRows.length > 0 && !r.broken
      ? ['The entries hold: an export imported into an empty record makes these tables anew.']
      : []),
  ].join('\n')

const definition = defineCommand({
  meta: { name: 'verify', description: 'Walk the chain of the record and check every hash' },
  args: {
    ...folderArg,
    expect: {
      type: 'string',
      valueHint: 'number:hash',
      description: 'a head noted elsewhere that the chain must hold',
    },
    views: {
      type: 'boolean',
      description: 'hold the derived tables against the entries in a record of any length; writers wait meanwhile',
    },
    json: { type: 'boolean', description: 'print the report as JSON' },
  },
  run: async ({ args }) => {
    const expect = args.expect === undefined ? undefined : expected(args.expect)
    try {
      const report = await withRecord(folderOf(args), (ledger) =>
        ledger.verify({
          progress: progress('checking'),
          views: args.views ? true : { upTo: viewsUpTo },
          ...(expect ? { expect } : {}),
        }),
      )
      await print(args.json ? JSON.stringify(report) : shown(report))
      return report.ok ? exit.ok : exit.no
    } catch (error) {
      if (!(error instanceof RecordError) || error.problem !== 'damaged') throw error
      say(`forcemeat: ${error.message}`)
      return exit.no
    }
  },
})

export const verify = command(
  definition,
  `
EXAMPLES
  forcemeat verify
  forcemeat verify --expect 412:3f1c…
  forcemeat verify --views

A chain alone cannot show that its end was cut off: a head noted on paper or in a backup can, with --expect.
Balances, states and the like are kept in tables derived from the entries. Up to 200,000 entries they are made again and
compared; in a longer record with --views. The first row that differs in each is named.

EXIT CODES
  0  every entry, file, page and derived table holds
  1  something does not; the output says which entry is the first
  2  no record there
  4  the record cannot be read`,
)
