import { openLedger } from '@forcemeat/ledger'
import { defineCommand } from 'citty'
import { command, exit, Stop } from '../command.ts'
import { fillWithDemo } from '@forcemeat/server/demo/fill'
import { print, progress } from '../output.ts'
import { folderArg, folderOf } from '../record.ts'

const definition = defineCommand({
  meta: { name: 'demo', description: 'Fill an empty record with the invented kitchen' },
  args: { ...folderArg },
  run: async ({ args }) => {
    const folder = folderOf(args)
    const ledger = await openLedger({ folder })
    try {
      const { entries } = await ledger.head()
      if (entries > 0)
        throw new Stop(
          exit.badInput,
          `forcemeat: the record in ${folder} holds ${entries} entries; the invented kitchen goes only into an empty one`,
        )
      const filled = await fillWithDemo(ledger, progress('recording'))
      await print(
        `${filled.entries} entries of an invented kitchen are in ${folder}. Nothing in it is real; every page and paper says so.`,
      )
    } finally {
      await ledger.close()
    }
    return exit.ok
  },
})

export const demo = command(
  definition,
  `
EXAMPLE
  forcemeat demo --folder try-it && forcemeat serve --folder try-it

EXIT CODES
  0  filled
  2  the record holds entries already
  4  the record stands in the way`,
)
