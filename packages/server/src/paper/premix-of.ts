import { InvalidInput } from '@forcemeat/craft/calculation'
import { premix } from '@forcemeat/craft/season/premix'
import type { Ledger, RecipeVersion } from '@forcemeat/ledger'
import { kitchenFrame } from './frame-of.ts'
import type { PaperAsked } from './asked.ts'
import { premixSheet } from './premix.ts'

/** The pre-mix sheet of a version of a recipe as PDF, on the scales the kitchen has. @throws InvalidInput where it has none */
export async function premixPaper(
  ledger: Ledger,
  { recipe, version, body }: RecipeVersion,
  { batches, meatKg }: { batches: number; meatKg: number },
  paper: PaperAsked,
): Promise<Uint8Array<ArrayBuffer>> {
  const scales = (await ledger.instruments())
    .filter((i) => i.type === 'scale' && i.readabilityG !== undefined && !i.retired)
    .map((i) => ({
      id: i.instrument,
      readabilityG: i.readabilityG!,
      ...(i.toleranceG ? { toleranceG: i.toleranceG } : {}),
      ...(i.capacityG === undefined ? {} : { capacityG: i.capacityG }),
    }))
  if (scales.length === 0)
    throw new InvalidInput([
      {
        path: 'scales',
        message: 'are none in the record; allowed: a scale with what it reads, added under Instruments',
      },
    ])
  const mix = premix({ recipe: body, meatKg, batches, scales })
  const frame = await kitchenFrame(ledger, recipe, paper)
  const { printPdf } = await import('./print.ts')
  return printPdf(
    premixSheet({
      ...frame,
      foot: `${recipe}, version ${version}`,
      recipe: { name: body.name, code: recipe, version },
      meatKg,
      mix,
    }),
  )
}
