import type { Draft } from './facts.ts'
import { priceKey } from './price-key.ts'

export type SubjectType =
  | 'kitchen'
  | 'person'
  | 'instrument'
  | 'lot'
  | 'recipe'
  | 'batch'
  | 'pack'
  | 'file'
  | 'entry'
  | 'business'
  | 'deviation'
  | 'drill'
  | 'label'
  | 'room'
  | 'order'
  | 'price'
  | 'resource'
export type Subject = { readonly type: SubjectType; readonly id: string }

const present = (type: SubjectType, ids: readonly (string | undefined)[]): Subject[] =>
  [...new Set(ids)].flatMap((id) => (id === undefined ? [] : [{ type, id }]))

/** What a fact is a fact of: the one thing a correction may not change. `part` tells facts of one subject apart. */
export function subjectOf({ kind, body }: Pick<Draft, 'kind' | 'body'>): Subject & { readonly part?: string } {
  const draft = { kind, body } as Draft
  switch (draft.kind) {
    case 'kitchen.set':
      return { type: 'kitchen', id: 'kitchen' }
    case 'person.add':
      return { type: 'person', id: draft.body.person }
    case 'instrument.add':
    case 'instrument.check':
      return { type: 'instrument', id: draft.body.instrument }
    case 'lot.receive':
    case 'lot.adjust':
    case 'lot.split':
    case 'lot.rework':
    case 'lot.move':
    case 'lot.treat':
      return { type: 'lot', id: draft.body.lot }
    case 'recipe.save':
      return { type: 'recipe', id: draft.body.recipe, part: String(draft.body.version) }
    case 'room.add':
      return { type: 'room', id: draft.body.room }
    case 'order.take':
    case 'order.close':
      return { type: 'order', id: draft.body.order }
    case 'price.set':
      return { type: 'price', id: draft.body.material, part: priceKey(draft.body) }
    case 'price.sell':
      return { type: 'recipe', id: draft.body.recipe, part: priceKey(draft.body) }
    case 'plan.resource':
      return { type: 'resource', id: draft.body.resource }
    case 'batch.plan':
    case 'batch.measure':
    case 'batch.place':
      return { type: 'batch', id: draft.body.batch }
    case 'batch.curve':
      return { type: 'batch', id: draft.body.batch, part: draft.body.purpose }
    case 'batch.weigh':
      return { type: 'batch', id: draft.body.batch, part: draft.body.line }
    case 'batch.decide':
      return { type: 'batch', id: draft.body.batch, part: draft.body.decision }
    case 'batch.pack':
    case 'pack.ship':
      return { type: 'pack', id: draft.body.pack }
    case 'business.add':
      return { type: 'business', id: draft.body.business }
    case 'recall.drill':
      return { type: 'drill', id: draft.body.drill }
    case 'label.approve':
      return { type: 'label', id: draft.body.label, part: draft.body.place }
    case 'hazard.sign':
      return { type: 'recipe', id: draft.body.recipe, part: String(draft.body.version) }
    case 'deviation.open':
    case 'deviation.act':
    case 'deviation.close':
      return { type: 'deviation', id: draft.body.deviation }
    case 'doubt.settle':
      return { type: 'batch', id: draft.body.batch, part: draft.body.instrument }
    case 'photo.attach':
      return { type: draft.body.of, id: draft.body.id, part: draft.body.file }
    case 'entry.withdraw':
      return { type: 'entry', id: String(draft.body.entry) }
  }
}

/** Everything an entry speaks of, so that any of it finds the entry again. `weighedLot` is the lot the plan named for the line. */
export function subjectsOf(draft: Draft, weighedLot?: string): readonly Subject[] {
  const { type, id } = subjectOf(draft)
  const first: Subject = { type, id }
  switch (draft.kind) {
    case 'batch.plan':
      return [
        first,
        ...present('recipe', [draft.body.recipe]),
        ...present(
          'lot',
          draft.body.lines.map((l) => l.lot),
        ),
        ...present(
          'instrument',
          draft.body.lines.map((l) => l.scale),
        ),
      ]
    case 'batch.weigh':
      return [
        first,
        ...present('lot', [draft.body.lot ?? weighedLot]),
        ...present('instrument', [draft.body.instrument]),
      ]
    case 'batch.measure':
      return [first, ...present('instrument', [draft.body.instrument])]
    case 'order.take':
      return [
        first,
        ...present(
          'recipe',
          draft.body.lines.map((l) => l.recipe),
        ),
      ]
    case 'batch.place':
      return [first, ...present('room', [draft.body.room])]
    case 'lot.treat':
      return [first, ...present('file', [draft.body.file]), ...present('instrument', [draft.body.instrument])]
    case 'batch.curve':
      return [
        first,
        ...present('file', [draft.body.file]),
        ...present(
          'instrument',
          draft.body.channels.map((c) => c.instrument),
        ),
      ]
    case 'lot.receive':
      return [first, ...present('instrument', [draft.body.arrival?.instrument])]
    case 'lot.split':
      return [first, ...present('lot', [draft.body.from])]
    case 'lot.rework':
      return [first, ...present('batch', [draft.body.batch])]
    case 'recall.drill':
      return [first, ...present(draft.body.subject, [draft.body.of])]
    case 'label.approve':
      return [first, ...present('recipe', [draft.body.recipe]), ...present('batch', [draft.body.batch])]
    case 'deviation.open':
      return [first, ...draft.body.about]
    case 'doubt.settle':
      return [first, ...present('instrument', [draft.body.instrument])]
    case 'hazard.sign':
      return [first, ...present('file', [draft.body.file])]
    case 'photo.attach':
      return [first, ...present('file', [draft.body.file])]
    case 'batch.pack':
      return [first, ...present('batch', [draft.body.batch])]
    default:
      return [first]
  }
}
