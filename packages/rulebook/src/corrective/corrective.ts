import type { Source } from '@forcemeat/craft/source'

/** A corrective choice: what may be done after findings of some rules fail, and on whose word. It is never a verdict. */
export type Corrective = {
  readonly id: string
  readonly title: string
  readonly text: string
  /** Ids of rules, or how they begin, whose failing it answers. */
  readonly after: readonly string[]
  readonly source: Source
}
