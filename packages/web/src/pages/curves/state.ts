import { signal } from '@preact/signals'
import type { Answers } from '@forcemeat/craft/log/format'
import type { CoolingProduct } from '@forcemeat/craft/heat/chill'
import type { LethalityProduct } from '@forcemeat/craft/heat/lethality'
import { readCurve } from '../../work/curve-client.ts'
import type { CurveResult } from '../../work/curve-job.ts'

export type OpenFile = { readonly name: string; readonly bytes: Uint8Array }

/** What the maker says of the product and the probe; the file cannot know it. */
export type Product = {
  readonly lethality: LethalityProduct
  /** Absent while nobody said whether the product is cured: the chill is then judged both ways, and never passes. */
  readonly cooling?: CoolingProduct | undefined
  readonly toleranceC?: number | undefined
}

/** Nothing said: nothing is presumed of a product, and nothing passes. */
const unsaid: Product = { lethality: {} }

export const file = signal<OpenFile | undefined>(undefined)
export const answers = signal<Answers>({})
export const product = signal<Product>(unsaid)
export const result = signal<CurveResult | undefined>(undefined)
export const busy = signal(false)
export const trouble = signal('')

let asked = 0

/** Read and judge the open file as things stand; an older answer never overwrites a newer one. */
export async function judgeOpenFile(): Promise<void> {
  const open = file.value
  if (!open) return
  const mine = ++asked
  busy.value = true
  trouble.value = ''
  try {
    const { lethality, cooling, toleranceC } = product.value
    const found = await readCurve({
      bytes: open.bytes,
      answers: answers.value,
      options: {
        product: lethality,
        ...(cooling === undefined ? {} : { cooling }),
        ...(toleranceC === undefined ? {} : { toleranceC }),
      },
    })
    if (mine === asked) result.value = found
  } catch (error) {
    if (mine === asked) {
      result.value = undefined
      trouble.value = (error as Error).message
    }
  } finally {
    if (mine === asked) busy.value = false
  }
}

/** Open another file; what was said of the one before does not carry over. */
export function open(next: OpenFile | undefined, said: Answers = {}): void {
  file.value = next
  answers.value = said
  product.value = unsaid
  result.value = undefined
  trouble.value = ''
  if (next) void judgeOpenFile()
}
