import type { Finding } from '@forcemeat/craft/finding'
import type { LabelLanguage } from '@forcemeat/craft/declare/label/languages'
import type { LabelPack } from '@forcemeat/craft/declare/label/pack'

/** A label as the server made and drew it. */
export type ProofView = {
  readonly label: string
  readonly recipe: string
  readonly version: number
  readonly batch?: string
  readonly contentHash: string
  readonly svg: string
  readonly stands: boolean
  readonly findings: readonly Finding[]
  readonly blocks: readonly {
    readonly id: string
    readonly what: string
    readonly settle: string
    readonly by: 'data' | 'person'
    readonly settled?: string
  }[]
  readonly content: {
    readonly changes: readonly { readonly field: string; readonly before?: string; readonly now?: string }[]
    readonly notes: readonly string[]
    readonly versions: readonly {
      readonly language: LabelLanguage
      readonly missing: readonly { readonly what: string; readonly text: string }[]
      readonly from: readonly {
        readonly document: string
        readonly section: string
        readonly edition: string
        readonly mark: string
      }[]
    }[]
    readonly nutritionOwn?: readonly {
      readonly lossPct: number
      readonly of: 'pieces' | 'packs'
      readonly rows: readonly {
        readonly key: string
        readonly label: string
        readonly unit: string
        readonly printed: string
        readonly own?: string
        readonly low?: number
        readonly high?: number
        readonly outside: boolean
      }[]
    }[]
    readonly fields: readonly { readonly field: string; readonly text: string }[]
  }
  readonly drawn: { readonly widthMm: number; readonly heightMm: number }
  readonly approved?: {
    readonly seq: number
    readonly at: string
    readonly by: string
    readonly reasons: readonly string[]
  }
}

/** An approval as the record has it. */
export type ApprovalView = {
  readonly seq: number
  readonly at: string
  readonly by: string
  readonly label: string
  readonly recipe: string
  readonly version: number
  readonly batch?: string
  readonly place: string
  readonly pack: LabelPack
  readonly contentHash: string
  readonly reasons: readonly string[]
}
