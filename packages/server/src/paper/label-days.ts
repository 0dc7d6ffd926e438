import { InvalidInput } from '@forcemeat/craft/calculation'
import type { LabelPack } from '@forcemeat/craft/declare/label/pack'
import type { BatchRecord } from '@forcemeat/ledger'

type Packing = BatchRecord['packs'][number]
type Days = Pick<LabelPack, 'packedOn' | 'frozenOn'>

/** Packings a label is printed for, and the day its dates count from. */
export type LabelDays = { readonly packedOn: string; readonly packings: readonly Packing[] }

/** Labels are laid out ahead of the packing, and looked at again after it, by no more than this; common practice, no source. */
const YEAR_DAYS = 366

const away = (today: string, days: number): string =>
  new Date(Date.parse(today) + days * 86_400_000).toISOString().slice(0, 10)

const wrong = (path: string, given: string, allowed: string): InvalidInput =>
  new InvalidInput([{ path, message: `is ${given}; allowed: ${allowed}` }])

/** @throws InvalidInput where a day typed is before the first or after the last there can be */
function within(path: string, day: string | undefined, first: string, last: string, what: string): void {
  if (day !== undefined && (day < first || day > last)) throw wrong(path, day, `${first} to ${last}, ${what}`)
}

/** @throws InvalidInput for days of a recipe's label that lie years off */
export function recipeDays({ packedOn, frozenOn }: Days, today: string): string {
  const [first, last] = [away(today, -YEAR_DAYS), away(today, YEAR_DAYS)]
  within('pack.packedOn', packedOn, first, last, 'a year about today')
  within('pack.frozenOn', frozenOn, first, last, 'a year about today')
  return packedOn ?? today
}

/**
 * The day a batch's label counts from: that of the packing named, or of the earliest where none is. A day typed has to be one of a packing
 * of the batch; where nothing is packed yet, a day from its making on.
 *
 * @throws InvalidInput naming the field and the days or packings allowed
 */
export function batchDays(
  { batch, on, packs }: Pick<BatchRecord, 'batch' | 'on' | 'packs'>,
  { packedOn: typed, frozenOn }: Days,
  packing: string | undefined,
  today: string,
): LabelDays {
  const last = away(today, YEAR_DAYS)
  within('pack.frozenOn', frozenOn, on, last, `from the day batch ${batch} was made`)
  const named = packing === undefined ? packs : packs.filter((p) => p.pack === packing)
  if (packing !== undefined && named.length === 0)
    throw wrong(
      'packing',
      packing,
      packs.length === 0 ? `none, batch ${batch} has no packing yet` : packs.map((p) => p.pack).join(', '),
    )
  if (packs.length === 0) {
    within('pack.packedOn', typed, on, last, `from the day batch ${batch} was made`)
    return { packedOn: typed ?? on, packings: [] }
  }
  const days = [...new Set(named.map((p) => p.on))].toSorted()
  if (typed !== undefined && !days.includes(typed))
    throw wrong('pack.packedOn', typed, `a day batch ${batch} was packed: ${days.join(', ')}`)
  return {
    packedOn: typed ?? days[0]!,
    packings: typed === undefined ? named : named.filter((p) => p.on === typed),
  }
}
