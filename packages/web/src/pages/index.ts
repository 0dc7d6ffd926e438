import type { Page } from '../app.tsx'
import { Batches } from './batches/batches.tsx'
import { Curves } from './curves/curves.tsx'
import { Instruments } from './instruments/instruments.tsx'
import { Labels } from './labels/labels.tsx'
import { Plan } from './plan/plan.tsx'
import { People } from './people/people.tsx'
import { Recipes } from './recipes/recipes.tsx'
import { RecordPage } from './record/record.tsx'
import { Reference } from './reference/reference.tsx'
import { Rules } from './rules/rules.tsx'
import { Stock } from './stock/stock.tsx'
import { Today } from './today/today.tsx'

/** The pages, in the order they lie on the bench. */
export const pages: readonly Page[] = [
  { at: 'today', title: 'Today', view: Today },
  { at: 'stock', title: 'Stock', view: Stock },
  { at: 'recipes', title: 'Recipes', view: Recipes },
  { at: 'batches', title: 'Batches', view: Batches },
  { at: 'curves', title: 'Curves', view: Curves },
  { at: 'labels', title: 'Labels', view: Labels },
  { at: 'record', title: 'Record', view: RecordPage },
  { at: 'plan', title: 'Plan', view: Plan },
  { at: 'instruments', title: 'Instruments', view: Instruments },
  { at: 'people', title: 'People', view: People, unlisted: true },
  { at: 'rules', title: 'Rules', view: Rules },
  { at: 'reference', title: 'Reference', view: Reference },
]
