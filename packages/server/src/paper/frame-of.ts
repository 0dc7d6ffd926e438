import type { Ledger } from '@forcemeat/ledger'
import type { PaperAsked } from './asked.ts'
import type { Frame } from './frame.ts'

/** Kitchen, batch and head of the record, as every sheet carries them. */
export const frameOf = async (
  ledger: Ledger,
  { batch }: { readonly batch: string },
  paper: PaperAsked,
): Promise<Frame> => ({
  ...(await kitchenFrame(ledger, '', paper)),
  batch,
})

/** The frame of a sheet that belongs to a recipe and to no one batch. */
export async function kitchenFrame(ledger: Ledger, recipe: string, paper: PaperAsked): Promise<Frame> {
  const { size, units } = typeof paper === 'string' ? { size: paper, units: undefined } : paper
  const [kitchen, head] = await Promise.all([ledger.kitchen(), ledger.head()])
  return {
    kitchen: {
      name: kitchen?.name ?? 'Kitchen without a name',
      ...(kitchen?.place === undefined ? {} : { place: kitchen.place }),
      demo: kitchen?.demo === true,
      units: units ?? kitchen?.units ?? 'metric',
    },
    batch: recipe,
    // Something is there, so the record has at least one entry.
    head: { seq: head.entries, hash: head.head ?? '', at: head.at ?? '1970-01-01T00:00:00.000Z' },
    size,
  }
}
