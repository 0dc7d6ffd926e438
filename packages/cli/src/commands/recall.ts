import { writeFile } from 'node:fs/promises'
import type { Ledger, Recall, RecallSubject } from '@forcemeat/ledger'
import { toCsv } from '@forcemeat/server/recall/csv'
import { gapsOf, recallForms, recallParts, recallTable } from '@forcemeat/server/recall/forms'
import { formOf, recallPdf } from '@forcemeat/server/recall/report'
import { defineCommand } from 'citty'
import { command, exit, Stop } from '../command.ts'
import { print, say } from '../output.ts'
import { folderArg, folderOf, withRecord } from '../record.ts'

/** What a code names, where it is not said: a pack, a lot or a batch. @throws Stop where it is nothing, or more than one */
async function subjectOf(ledger: Ledger, id: string, type: string | undefined): Promise<RecallSubject> {
  if (type !== undefined) return { type: type as RecallSubject['type'], id }
  const found: RecallSubject['type'][] = []
  if (await ledger.lot(id)) found.push('lot')
  if (await ledger.pack(id)) found.push('pack')
  if (await ledger.batch(id)) found.push('batch')
  if (found.length === 1) return { type: found[0]!, id }
  throw new Stop(
    exit.badInput,
    found.length === 0
      ? `CODE: ${JSON.stringify(id)} is not in the record; allowed: the code of a lot, a pack or a batch`
      : `CODE: ${id} is a ${found.join(' and a ')}; allowed: with --type ${found.join(' or --type ')}`,
  )
}

const kg = (x: number): string => `${Number(x.toFixed(3))} kg`

function inWords(r: Recall, gaps: number): string {
  const q = r.quantity
  return [
    `${r.subject.type} ${r.subject.id}: ${r.batches.length} batches, ${q.packs} packs, ${r.customers.length} customers`,
    `left the house  ${q.shipped} packs, ${kg(q.shippedKg)}`,
    `here            ${q.here} packs, ${kg(q.hereKg)}; ${kg(q.stockKg)} of the lots in stock`,
    `not packed      at most ${kg(q.notPackedKg)} made and not packed, before losses`,
    `not accounted   ${q.unaccountedPacks} packs`,
    '',
    ...r.batches.map(
      (b) =>
        `batch ${b.batch} (${b.state}): in ${kg(b.balance.inKg)}, packed ${kg(b.balance.packedKg)}, rework ${kg(b.balance.reworkKg)}, difference ${kg(b.balance.differenceKg)}`,
    ),
    '',
    ...r.customers.map(
      (c) => `${c.name}: ${c.count} packs, ${kg(c.kg)}, ${c.customer?.address ?? 'address not recorded'}`,
    ),
    ...(gaps > 0 ? ['', `${gaps} fields that the tracing rule asks for are not recorded.`] : []),
  ].join('\n')
}

const definition = defineCommand({
  meta: { name: 'recall', description: 'Follow a lot, a pack or a batch to everything it is in' },
  args: {
    code: { type: 'positional', required: true, description: 'code of a lot, a pack or a batch' },
    ...folderArg,
    type: {
      type: 'enum',
      options: ['lot', 'pack', 'batch'],
      description: 'what the code names, where it names several',
    },
    pdf: { type: 'string', valueHint: 'file.pdf', description: 'write the report' },
    csv: { type: 'string', valueHint: 'file.csv', description: 'write a table, - for standard output' },
    part: { type: 'enum', options: [...recallParts], default: 'consignments', description: 'which table' },
    form: { type: 'enum', options: [...recallForms], description: 'tracing rule; that of the kitchen unless given' },
    size: { type: 'enum', options: ['A4', 'Letter'], default: 'A4', description: 'size of the paper' },
    json: { type: 'boolean', description: 'print everything as JSON' },
  },
  run: async ({ args }) =>
    withRecord(folderOf(args), async (ledger) => {
      const subject = await subjectOf(ledger, args.code, args.type)
      const [found, kitchen] = [await ledger.recall(subject), await ledger.kitchen()]
      if (!found)
        throw new Stop(
          exit.badInput,
          `CODE: ${args.code} is no ${subject.type} of the record; allowed: the code of one`,
        )
      const form = args.form ?? formOf(kitchen?.jurisdictions ?? [])
      const table = recallTable(found, kitchen, form, args.part)
      if (args.pdf !== undefined) {
        const pdf = await recallPdf(ledger, subject, args.size, form)
        await writeFile(args.pdf, pdf!)
        say(`forcemeat: wrote ${args.pdf} (${pdf!.byteLength} bytes)`)
      }
      if (args.csv === '-') await print(toCsv(table.heads, table.rows).trimEnd())
      else {
        if (args.csv !== undefined) {
          await writeFile(args.csv, toCsv(table.heads, table.rows))
          say(`forcemeat: wrote ${args.csv} (${table.rows.length} rows)`)
        }
        const gaps = gapsOf(recallTable(found, kitchen, form, 'consignments'))
        await print(args.json ? JSON.stringify(found) : inWords(found, gaps))
      }
      return exit.ok
    }),
})

export const recall = command(
  definition,
  `
EXAMPLES
  forcemeat recall SH-0914
  forcemeat recall P-0117 --pdf recall.pdf
  forcemeat recall SH-0914 --csv - --part inputs --form ca

Goes through splits and rework, however many batches on. It says what the record holds; whether to recall is for a person,
and for the authority of the place.

EXIT CODES
  0  found
  2  no such lot, pack or batch
  4  the record or the disk stands in the way`,
)
