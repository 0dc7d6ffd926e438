import type { CitedSource } from '../../ui/citation.tsx'

export type DatedView = {
  readonly from?: string
  readonly until?: string
  readonly min?: number
  readonly max?: number
  readonly source?: CitedSource
}

export type RuleView = {
  readonly id: string
  readonly title: string
  readonly jurisdiction: string
  readonly topic: string
  readonly scope: string
  readonly unit: string
  readonly weight: 'limit' | 'advice'
  readonly measure?: string
  readonly basis?: string
  readonly when?: Readonly<Record<string, readonly (string | boolean)[]>>
  readonly values: readonly DatedView[]
  readonly note?: string
}
