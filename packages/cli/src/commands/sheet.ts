import { writeFile } from 'node:fs/promises'
import { once } from 'node:events'
import { paperSizes } from '@forcemeat/server/paper/frame'
import { paperOf, papers } from '@forcemeat/server/paper/paper-of'
import { defineCommand } from 'citty'
import { command, exit, Stop } from '../command.ts'
import { say } from '../output.ts'
import { folderArg, folderOf, withRecord } from '../record.ts'

const definition = defineCommand({
  meta: { name: 'sheet', description: 'Print a batch sheet or a cook-and-chill record as PDF' },
  args: {
    batch: { type: 'positional', required: true, description: 'code of the batch' },
    ...folderArg,
    out: {
      type: 'string',
      alias: 'o',
      valueHint: 'file.pdf',
      description: 'file to write, - for standard output; <paper>-<batch>.pdf here unless given',
    },
    paper: { type: 'enum', options: [...papers], default: 'batch-sheet', description: 'which paper' },
    size: { type: 'enum', options: [...paperSizes], default: 'A4', description: 'size of the paper' },
  },
  run: async ({ args }) => {
    const pdf = await withRecord(folderOf(args), (ledger) => paperOf(ledger, args.paper, args.batch, args.size))
    if (!pdf)
      throw new Stop(
        exit.badInput,
        `BATCH: ${JSON.stringify(args.batch)} is not in the record; allowed: the code of a batch`,
      )
    if (args.out === '-') {
      if (!process.stdout.write(pdf)) await once(process.stdout, 'drain')
      return exit.ok
    }
    const out = args.out ?? `${args.paper}-${args.batch}.pdf`
    await writeFile(out, pdf)
    say(`forcemeat: wrote ${out} (${pdf.byteLength} bytes)`)
    return exit.ok
  },
})

export const sheet = command(
  definition,
  `
EXAMPLES
  forcemeat sheet B-2026-031
  forcemeat sheet B-2026-031 --paper cook-and-chill --size Letter -o record.pdf
  forcemeat sheet B-2026-031 -o - | lp

EXIT CODES
  0  written
  2  no such batch, paper or size
  4  the record or the disk stands in the way`,
)
