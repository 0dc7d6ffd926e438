import type { FactKind } from '@forcemeat/ledger'

export const roles = ['owner', 'maker', 'checker', 'reader'] as const
export type Role = (typeof roles)[number]

/** How a person showed who they are: the passphrase gives all their role may do, the PIN of a shared tablet only adding entries. */
export type Shown = 'passphrase' | 'pin'
export type Identity = { readonly person: string; readonly role: Role; readonly by: Shown }

/** What an address asks of the person who calls it. */
export type Need =
  /** Nobody in particular: signing in, health. */
  | 'open'
  /** Anyone signed in, about themselves; the route looks at whom. */
  | 'own'
  /** Reading the record, and reckoning, which changes nothing. */
  | 'read'
  /** Adding to the record; which kinds depends on the role. */
  | 'add'
  /** Signing a decision. */
  | 'decide'
  /** The house itself: backups, secrets. */
  | 'manage'

const allowed: Readonly<Record<Need, readonly Role[]>> = {
  open: roles,
  own: roles,
  read: roles,
  add: ['owner', 'maker', 'checker'],
  decide: ['owner', 'maker', 'checker'],
  manage: ['owner'],
}

/** What the PIN of a shared tablet opens, whoever's it is. */
const byPin: ReadonlySet<Need> = new Set(['open', 'own', 'read', 'add'])

export const may = ({ role, by }: Pick<Identity, 'role' | 'by'>, need: Need): boolean =>
  allowed[need].includes(role) && (by === 'passphrase' || byPin.has(need))

const bench: readonly FactKind[] = [
  'instrument.check',
  'lot.receive',
  'lot.adjust',
  'lot.split',
  'lot.rework',
  'lot.move',
  'lot.treat',
  'batch.plan',
  'batch.weigh',
  'batch.measure',
  'batch.curve',
  'batch.place',
  'batch.pack',
  'pack.ship',
  'deviation.open',
  'deviation.act',
  'recall.drill',
  'photo.attach',
]
const office: readonly FactKind[] = [
  'recipe.save',
  'business.add',
  'room.add',
  'order.take',
  'order.close',
  'price.set',
  'price.sell',
  'plan.resource',
  'entry.withdraw',
]
const checking: readonly FactKind[] = [
  'instrument.check',
  'batch.measure',
  'batch.decide',
  'deviation.open',
  'deviation.act',
  'deviation.close',
  'doubt.settle',
  'photo.attach',
  'label.approve',
  'hazard.sign',
  'recall.drill',
  'entry.withdraw',
]
const house: readonly FactKind[] = ['kitchen.set', 'person.add', 'instrument.add']

/** Kinds of entry each role may add with their passphrase. A reader adds none. */
export const adds: Readonly<Record<Role, ReadonlySet<FactKind>>> = {
  owner: new Set([...bench, ...office, ...checking, ...house]),
  maker: new Set([...bench, ...office]),
  checker: new Set(checking),
  reader: new Set(),
}

const pinKinds: ReadonlySet<FactKind> = new Set(bench)

/** Kinds this person may add now. */
export const kindsOf = ({ role, by }: Pick<Identity, 'role' | 'by'>): readonly FactKind[] =>
  [...adds[role]].filter((kind) => by === 'passphrase' || pinKinds.has(kind))

const benchOrChecking: ReadonlySet<FactKind> = new Set([...bench, ...checking])

/** Kinds whose entries this person may withdraw: an owner any, a checker what is done at the bench or in checking, a maker what they add. */
export const mayTakeBack = ({ role }: Pick<Identity, 'role'>, kind: FactKind): boolean =>
  role === 'owner' || (role === 'checker' ? benchOrChecking : adds[role]).has(kind)

/** Correcting or withdrawing what somebody else recorded is for those who check. */
export const mayCorrectOthers = ({ role, by }: Pick<Identity, 'role' | 'by'>): boolean =>
  by === 'passphrase' && (role === 'owner' || role === 'checker')
