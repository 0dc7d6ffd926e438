import { defineCommand } from 'citty'
import { command, exit } from '../command.ts'
import { print, progress } from '../output.ts'
import { folderArg, folderOf, withRecord } from '../record.ts'

const definition = defineCommand({
  meta: { name: 'export', description: 'Write the whole record as plain files' },
  args: {
    to: { type: 'positional', required: true, description: 'a new or empty folder' },
    ...folderArg,
    json: { type: 'boolean', description: 'print the report as JSON' },
  },
  run: async ({ args }) => {
    const report = await withRecord(folderOf(args), (ledger) => ledger.exportTo(args.to, progress('writing')))
    await print(
      args.json
        ? JSON.stringify(report)
        : `${report.folder}\n${report.entries} entries, ${report.files} files, head ${report.head ?? 'none'}`,
    )
    return exit.ok
  },
})

export const exportEntries = command(
  definition,
  `
EXAMPLE
  forcemeat export ../record-as-files

Writes entries.jsonl (one entry a line, with its hash), files/ (each under its SHA-256) and head.json: readable without
this program for as long as there are text editors.

EXIT CODES
  0  written
  2  no record there, or the folder holds something
  4  the disk or the record stands in the way`,
)
