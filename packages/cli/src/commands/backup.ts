import { join } from 'node:path'
import { defineCommand } from 'citty'
import { command, exit } from '../command.ts'
import { print, progress } from '../output.ts'
import { folderArg, folderOf, withRecord } from '../record.ts'

const definition = defineCommand({
  meta: { name: 'backup', description: 'Copy the record while it is in use' },
  args: {
    file: {
      type: 'positional',
      required: false,
      description: "file to write; a dated one in the record's own folder backups/ where none is given",
    },
    ...folderArg,
    json: { type: 'boolean', description: 'print the report as JSON' },
  },
  run: async ({ args }) => {
    const folder = folderOf(args)
    const stamp = new Date().toISOString().replaceAll(/[:.]/g, '')
    const target = args.file ?? join(folder, 'backups', `record-${stamp}.db`)
    const { copyFeeds } = await import('@forcemeat/server/backup/feeds')
    const report = await withRecord(folder, async (ledger) => {
      const feeds = await copyFeeds(ledger.file, target)
      return { ...(await ledger.backup(target, progress('copying'))), feeds }
    })
    const open = report.feeds.length === 0 ? '' : `\nopen feeds beside it: ${report.feeds.join(', ')}`
    await print(
      args.json
        ? JSON.stringify(report)
        : `${report.file}\n${report.entries} entries, ${report.files} files, ${report.bytes} bytes\nhead ${report.head ?? 'none'}${open}`,
    )
    return exit.ok
  },
})

export const backup = command(
  definition,
  `
EXAMPLES
  forcemeat backup
  forcemeat backup /media/stick/record.db

The copy is opened and its chain checked before it gets its name; a file that is there already is never written over.
Readings of a batch that is still in the house, not yet closed into the record, are copied to a folder beside it.
Keep a copy off this machine. Write the head down on paper: it pins every entry before it.

EXIT CODES
  0  copied and checked
  2  no record there, or the file exists
  4  the disk or the record stands in the way`,
)
