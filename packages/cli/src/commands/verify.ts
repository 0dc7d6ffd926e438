import { RecordError, type VerifyReport } from '@forcemeat/ledger'
import { defineCommand } from 'citty'
import { command, exit, Stop } from '../command.ts'
import { print, progress, say } from '../output.ts'
import { folderArg, folderOf, withRecord } from '../record.ts'

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
    json: { type: 'boolean', description: 'print the report as JSON' },
  },
  run: async ({ args }) => {
    const expect = args.expect === undefined ? undefined : expected(args.expect)
    try {
      const report = await withRecord(folderOf(args), (ledger) =>
        ledger.verify({ progress: progress('checking'), ...(expect ? { expect } : {}) }),
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

A chain alone cannot show that its end was cut off: a head noted on paper or in a backup can, with --expect.

EXIT CODES
  0  every entry, file and page holds
  1  something does not; the output says which entry is the first
  2  no record there
  4  the record cannot be read`,
)
