import type { LethalityProduct } from '@forcemeat/craft/heat/lethality'
import { tableFor } from './tables.ts'

/** Log reduction of Salmonella the table of a product stands for, with that table; undefined where no table gives the target asked for. */
export function targetReduction({
  species = 'meat',
  target,
  fatPct,
}: LethalityProduct): { log: number; rule: string; title: string } | undefined {
  const table = tableFor(species, target, fatPct)
  const log = table && /(\d+(?:\.\d+)?)-log/.exec(table.id)
  return log ? { log: Number(log[1]), rule: table.id, title: table.title } : undefined
}
