import type { Finding } from '@forcemeat/craft/finding'
import type { Source } from '@forcemeat/craft/source'

/** One dated value of a rule. The latest `from` not after the day in question holds, until `until` (first day it no longer does). */
export type Dated = {
  readonly from?: string
  readonly until?: string
  /** Limits of a `limit` rule; at least one. Tables of other kinds sit in the rule's own data. */
  readonly min?: number
  readonly max?: number
  readonly source: Source
}

export type Topic =
  | 'cure'
  | 'composition'
  | 'additive'
  | 'lethality'
  | 'cooling'
  | 'fermentation'
  | 'pork'
  | 'stability'
  | 'label'
  | 'net-weight'
  | 'process'

/** A rule as data: what it limits, where, for which product, since when, and on whose word. */
export type Rule = {
  readonly id: string
  readonly title: string
  readonly jurisdiction: string
  readonly topic: Topic
  /** In words, what the rule covers, for the reader of the Rules page. */
  readonly scope: string
  /** Facts that must hold for the rule to apply, e.g. { route: ['comminuted'] }; every key must match one of its values. */
  readonly when?: Readonly<Record<string, readonly (string | boolean)[]>>
  /** Name of the measure it limits, for rules that are a plain limit. */
  readonly measure?: string
  readonly unit: string
  /** `limit` stops a release; `advice` is shown and may be overruled with a reason. */
  readonly weight: 'limit' | 'advice'
  readonly values: readonly Dated[]
  readonly note?: string
}

/** A measured or computed figure, with its interval where one is known, or the reason why it is not known. */
export type Measure =
  | { readonly value: number; readonly low?: number; readonly high?: number }
  | { readonly missing: string; readonly settle?: string }

export type Case = {
  /** Facts of the product that scopes are matched against. */
  readonly facts: Readonly<Record<string, string | boolean | undefined>>
  readonly measures: Readonly<Record<string, Measure>>
  /** Day whose law is asked for, ISO date. */
  readonly on: string
  readonly jurisdictions: readonly string[]
}

export type { Finding }
