import { resolve } from 'node:path'
import { defineCommand } from 'citty'
import { command, exit, Stop } from '../command.ts'
import { print, say } from '../output.ts'
import { folderArg, folderOf } from '../record.ts'

const caution = 'It informs; you, the law of your place and a qualified person decide. Local codes come first.'

function portOf(text: string): number {
  const port = Number(text)
  if (!/^\d{1,5}$/.test(text) || port > 65_535)
    throw new Stop(exit.badInput, `--port: is ${JSON.stringify(text)}; allowed: a whole number from 0 to 65535`)
  return port
}

function backupsOf(to: string | undefined, every: string, keep: string) {
  if (to === undefined) return {}
  const [everyHours, kept] = [Number(every), Number(keep)]
  if (!(everyHours >= 0.1 && everyHours <= 8760))
    throw new Stop(exit.badInput, `--backup-every: is ${JSON.stringify(every)}; allowed: hours from 0.1 to 8760`)
  if (!Number.isInteger(kept) || kept < 1 || kept > 10_000)
    throw new Stop(exit.badInput, `--backup-keep: is ${JSON.stringify(keep)}; allowed: a whole number from 1 to 10000`)
  return { backups: { folder: resolve(to), everyHours, keep: kept } }
}

/** Settles with the name of the signal that asks the program to stop. */
const asked = (): Promise<NodeJS.Signals> =>
  new Promise((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => resolve(signal))
  })

const definition = defineCommand({
  meta: { name: 'serve', description: 'Run the workbench and its server on this machine' },
  args: {
    ...folderArg,
    port: { type: 'string', alias: 'p', default: '8117', description: 'port to listen on; 0 takes a free one' },
    host: {
      type: 'string',
      default: '127.0.0.1',
      description: 'address to listen on; wider than this machine needs a passphrase',
    },
    demo: { type: 'boolean', description: 'fill an empty record with the invented kitchen first' },
    'backup-to': {
      type: 'string',
      valueHint: 'folder',
      description: 'copy the record here by the clock, each copy tried out; another disk is best',
    },
    'backup-every': { type: 'string', default: '24', description: 'hours between copies' },
    'backup-keep': { type: 'string', default: '30', description: 'copies kept' },
    quiet: { type: 'boolean', alias: 'q', description: 'log no requests, only errors' },
  },
  run: async ({ args }) => {
    const folder = folderOf(args)
    const port = portOf(args.port)
    const backups = backupsOf(args['backup-to'], args['backup-every'], args['backup-keep'])
    const { CannotServe, serve: start } = await import('@forcemeat/server')
    if (args.demo) {
      const { fillWithDemo } = await import('@forcemeat/server/demo/fill')
      const { openLedger } = await import('@forcemeat/ledger')
      const ledger = await openLedger({ folder })
      try {
        if ((await ledger.head()).entries === 0) {
          const { entries } = await fillWithDemo(ledger)
          say(`forcemeat: the record was empty; ${entries} entries of an invented kitchen are in it now`)
        }
      } finally {
        await ledger.close()
      }
    }
    const stopping = asked()
    const quiet = (line: Readonly<Record<string, string | number>>) => {
      if (line['level'] === 'error') say(JSON.stringify(line))
    }
    try {
      const serving = await start({ host: args.host, port, folder, ...(args.quiet ? { log: quiet } : {}), ...backups })
      await print(
        `Forcemeat is at ${serving.url}${serving.guarded ? '  (asks for the passphrase)' : ''}\nRecord in ${folder}. Stop with Ctrl-C.\n${caution}`,
      )
      await stopping
      await serving.close()
    } catch (error) {
      if (error instanceof CannotServe) throw new Stop(exit.trouble, `forcemeat: ${error.message}`)
      throw error
    }
    return exit.ok
  },
})

export const serve = command(
  definition,
  `
EXAMPLES
  forcemeat serve
  forcemeat serve --demo --port 9000
  forcemeat serve --backup-to /media/stick --backup-every 12
  forcemeat passphrase && forcemeat serve --host 0.0.0.0

The log goes to standard error, one line of JSON a request. A stop asked for with Ctrl-C or SIGTERM finishes what is
being written first. FORCEMEAT_PASSPHRASE_FILE names a file with a kept passphrase in place of the record's own.

EXIT CODES
  0  stopped when asked to
  2  unusable option
  4  may not or cannot listen there, or the record cannot be opened`,
)
