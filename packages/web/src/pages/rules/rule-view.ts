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
  readonly when?: Readonly<Record<string, readonly (string | boolean)[]>>
  readonly values: readonly DatedView[]
  readonly note?: string
  readonly table?: TableView
  readonly tables?: readonly TableView[]
}

export type TableView = {
  readonly caption?: string
  readonly columns?: readonly (string | { readonly name?: string; readonly title?: string; readonly unit?: string })[]
  readonly rows?: readonly unknown[]
}
