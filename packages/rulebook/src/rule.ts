import type { Finding } from '@forcemeat/craft/finding'
import type { Source } from '@forcemeat/craft/source'

/** One dated value of a rule. The latest `from` not after the day in question holds, until `until` (first day it no longer does). */
export type Dated = {
  readonly from?: string
  readonly until?: string
  /** Limits of a `limit` rule; at least one. Tables of other kinds sit in the rule's own data. */
  readonly min?: number
  readonly max?: number
  /**
   * Present where the figure is known only from a report about the text, not from its words: who reported it. A breach still fails; a
   * figure inside such a limit is `cannot-tell`, never `pass`.
   */
  readonly secondHand?: string
  readonly source: Source
}

export const topics = [
  'cure',
  'composition',
  'additive',
  'lethality',
  'cooling',
  'fermentation',
  'pork',
  'stability',
  'label',
  'net-weight',
  'process',
] as const
export type Topic = (typeof topics)[number]

/** Rules that hold whatever the place: physics, chemistry, the trade's own cautions. They are judged for every place asked about. */
export const EVERYWHERE = 'everywhere'

/** A rule as data: what it limits, where, for which product, since when, and on whose word. */
export type Rule = {
  readonly id: string
  readonly title: string
  /** A place of the recipe schema's list, or `everywhere`. */
  readonly jurisdiction: string
  readonly topic: Topic
  /** In words, what the rule covers, for the reader of the Rules page. */
  readonly scope: string
  /**
   * Facts that must hold for the rule to apply, e.g. { route: ['comminuted'] }; every key must match one of its values. The facts of
   * a recipe are listed in `recipe/facts.ts`, its measures in `recipe/measures.ts`.
   */
  readonly when?: Readonly<Record<string, readonly (string | boolean)[]>>
  /** Name of the measure it limits, for rules that are a plain limit. */
  readonly measure?: string
  /** Measure to judge by where the first is not known: one that is never on its safe side of it. */
  readonly orMeasure?: string
  /** Limits the sum of measures, each times its weight, in place of one measure. */
  readonly sum?: readonly { readonly measure: string; readonly weight: number }[]
  /** What the measure is per, in words: "green weight of the meat block", "finished product". */
  readonly basis?: string
  /** Figures are rounded to this step before they are compared, where the law prints whole figures and its own equivalents are rounded. */
  readonly step?: number
  /** The finding given whenever the rule applies, for rules that forbid or ask for something rather than limit a measure. */
  readonly finding?: { readonly verdict: 'fail' | 'cannot-tell'; readonly because: string; readonly settle?: string }
  /** Rules that share this name are alternatives: one pass among their findings meets the requirement. */
  readonly anyOf?: string
  readonly unit: string
  /** `limit` stops a release; `advice` is shown and may be overruled with a reason. */
  readonly weight: 'limit' | 'advice'
  readonly values: readonly Dated[]
  readonly note?: string
}

/** A measured or computed figure, with its interval where one is known, or the reason why it is not known. */
export type Measure =
  | {
      readonly value: number
      readonly low?: number | undefined
      readonly high?: number | undefined
      /** What would narrow the interval. */
      readonly settle?: string | undefined
    }
  | { readonly missing: string; readonly settle?: string | undefined }

export type Case = {
  /**
   * Facts of the product that scopes are matched against. A fact that is named and undefined is unknown: a rule that turns on it is
   * answered with `cannot-tell`. A fact that is not named at all is no part of the case.
   */
  readonly facts: Readonly<Record<string, string | boolean | undefined>>
  readonly measures: Readonly<Record<string, Measure>>
  /** Day whose law is asked for, ISO date. */
  readonly on: string
  readonly jurisdictions: readonly string[]
}

export type { Finding }
