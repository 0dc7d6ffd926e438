import type { Page } from '../app.tsx'
import { Instruments } from './instruments/instruments.tsx'
import { RecordPage } from './record/record.tsx'
import { Reference } from './reference/reference.tsx'
import { Rules } from './rules/rules.tsx'

/** The pages, in the order they lie on the bench. */
export const pages: readonly Page[] = [
  { at: 'record', title: 'Record', view: RecordPage },
  { at: 'instruments', title: 'Instruments', view: Instruments },
  { at: 'rules', title: 'Rules', view: Rules },
  { at: 'reference', title: 'Reference', view: Reference },
]
