import { resolve } from 'node:path'
import { restoreBackup } from '@forcemeat/ledger'
import { defineCommand } from 'citty'
import { command, exit } from '../command.ts'
import { print } from '../output.ts'
import { folderArg, folderOf } from '../record.ts'

const definition = defineCommand({
  meta: { name: 'restore', description: 'Put a backup in the place of the record' },
  args: {
    file: { type: 'positional', required: true, description: 'the backup' },
    ...folderArg,
    force: { type: 'boolean', description: 'replace a record that holds entries the backup lacks, or that is damaged' },
    json: { type: 'boolean', description: 'print the report as JSON' },
  },
  run: async ({ args }) => {
    const report = await restoreBackup({
      from: resolve(args.file),
      folder: folderOf(args),
      ...(args.force ? { force: true } : {}),
    })
    const { restoreFeeds } = await import('@forcemeat/server/backup/feeds')
    const feeds = await restoreFeeds(resolve(args.file), report.file)
    const open = [
      ...(feeds.restored.length > 0 ? [`\nopen feeds put back: ${feeds.restored.join(', ')}`] : []),
      ...(feeds.left.length > 0 ? [`\nopen feeds left as they were, not replaced: ${feeds.left.join(', ')}`] : []),
    ].join('')
    const kept = report.replaced ? `\nthe record that stood there is kept as ${report.replaced}` : ''
    await print(
      args.json
        ? JSON.stringify({ ...report, feeds })
        : `${report.file}\n${report.entries} entries, head ${report.head ?? 'none'}${kept}${open}`,
    )
    return exit.ok
  },
})

export const restore = command(
  definition,
  `
EXAMPLES
  forcemeat restore record/backups/record-2026-11-25T083000000Z.db
  forcemeat restore backup.db --folder new-record

Stop the server first. The backup's chain is checked before anything is replaced, and what stood there is kept aside.

EXIT CODES
  0  restored
  2  no such backup, or the record holds entries the backup lacks (see --force)
  4  the backup or the disk stands in the way`,
)
