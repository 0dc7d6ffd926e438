import { openLedger } from '@forcemeat/ledger'
import { defineCommand } from 'citty'
import { command, exit } from '../command.ts'
import { print, progress } from '../output.ts'
import { folderArg, folderOf } from '../record.ts'

const definition = defineCommand({
  meta: { name: 'import', description: 'Take an export into an empty record' },
  args: {
    from: { type: 'positional', required: true, description: 'folder that "forcemeat export" wrote' },
    ...folderArg,
    json: { type: 'boolean', description: 'print the report as JSON' },
  },
  run: async ({ args }) => {
    const ledger = await openLedger({ folder: folderOf(args) })
    try {
      const report = await ledger.importFrom(args.from, progress('reading'))
      await print(
        args.json
          ? JSON.stringify(report)
          : `${ledger.file}\n${report.entries} entries, ${report.files} files, head ${report.head ?? 'none'}`,
      )
    } finally {
      await ledger.close()
    }
    return exit.ok
  },
})

export const importEntries = command(
  definition,
  `
EXAMPLE
  forcemeat import ../record-as-files --folder new-record

The chain keeps its hashes; every entry and file is checked, and all of it is taken or nothing.

EXIT CODES
  0  taken in
  2  no export there, faults in it, or the record is not empty
  4  the disk or the record stands in the way`,
)
