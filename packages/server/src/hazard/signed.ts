import { canonical, sha256, type Entry, type Fact, type Ledger } from '@forcemeat/ledger'
import { comparePlans, type HazardPlan, type PlanChange } from '@forcemeat/rulebook/hazard/plan'
import { notHere, Refusal } from '../http/refusal.ts'
import { planOf } from './plan-of.ts'

/** What a signature holds, and the plan it was given under. */
export type SignedPlan = Fact<'hazard.sign'> & {
  readonly seq: number
  readonly at: string
  readonly by: string
  readonly plan: HazardPlan
}

/** The file a signature names: the plan as it stood and what was completed, nothing else. */
type Kept = { readonly plan: HazardPlan; readonly completed: Fact<'hazard.sign'>['completed'] }

/** What a person has to say before the draft is a plan: what it leaves open, and each critical point the rulebook has no limit for. */
export const toComplete = (plan: HazardPlan): readonly string[] => [
  ...plan.open,
  ...plan.steps.flatMap((s) =>
    s.hazards
      .filter((h) => h.critical && h.limits.length === 0)
      .map((h) => `the critical limit at ${s.name.toLowerCase()} against: ${h.hazard}`),
  ),
]

/** Hash of a draft, by which the one who signs says which they saw. The day of printing is no part of it; the limits in force are. */
export const planHash = ({ on: _on, ...plan }: HazardPlan): string => sha256(canonical(plan))

/** The newest signature that stands for a recipe, or the one of an entry. */
export async function signedPlanOf(ledger: Ledger, recipe: string, seq?: number): Promise<SignedPlan | undefined> {
  const entries = await ledger.entries({ kind: 'hazard.sign', about: `recipe:${recipe}`, order: 'desc', limit: 1000 })
  const found = entries.find((e) => (seq === undefined ? e.standing === 'stands' : e.seq === seq))
  if (found?.kind !== 'hazard.sign') return undefined
  const bytes = await ledger.getFile(found.body.file)
  if (!bytes) return undefined
  const { plan } = JSON.parse(new TextDecoder().decode(bytes)) as Kept
  return { ...found.body, seq: found.seq, at: found.at, by: found.by, plan }
}

/** What is other now than in the plan that was signed. */
export const sinceSigned = (signed: SignedPlan, now: HazardPlan): readonly PlanChange[] =>
  comparePlans(signed.plan, now)

export type Signing = Pick<Fact<'hazard.sign'>, 'version' | 'name' | 'qualification' | 'completed'> & {
  readonly planHash: string
  readonly by: string
  readonly key?: string | undefined
}

/**
 * Sign the plan of a version as it stands: made here, kept whole as a file, and named by its hash.
 * @throws Refusal 404 without such a version; 409 where the plan is another than the one that was seen, or something is left open
 */
export async function signPlan(ledger: Ledger, recipe: string, asked: Signing, on: string): Promise<Entry[]> {
  const { version, name, qualification, by, key } = asked
  // Sent again after a broken line: the signature stands as it was given.
  const before = key === undefined ? undefined : await ledger.entryOfKey(key)
  if (before?.kind === 'hazard.sign' && before.by === by && before.body.recipe === recipe && before.body.name === name)
    return [before]
  const found = await planOf(ledger, recipe, { version, on })
  if (!found) throw notHere('recipe or version', `${recipe} ${version}`)
  const { plan } = found
  if (planHash(plan) !== asked.planHash)
    throw new Refusal(409, [
      {
        path: 'planHash',
        message: 'is of another plan than this version has now; allowed: to look at it again, then sign',
      },
    ])
  const wanted = toComplete(plan)
  const said = new Map(asked.completed.map((c) => [c.item, c.said]))
  const faults = [
    ...wanted.flatMap((item, i) =>
      said.get(item)?.trim()
        ? []
        : [{ path: `completed[${i}].said`, message: `is empty; allowed: what holds here for ${item}` }],
    ),
    ...asked.completed.flatMap((c, i) =>
      wanted.includes(c.item)
        ? []
        : [{ path: `completed[${i}].item`, message: 'is not open in this plan; allowed: what the plan names as open' }],
    ),
  ]
  if (faults.length > 0) throw new Refusal(409, faults)
  const completed = wanted.map((item) => ({ item, said: said.get(item)!.trim() }))
  const { sha256: file } = await ledger.putFile(new TextEncoder().encode(canonical({ plan, completed } satisfies Kept)))
  return ledger.append([
    {
      kind: 'hazard.sign',
      by,
      ...(key === undefined ? {} : { key }),
      body: { recipe, version, file, name, qualification, on, completed },
    },
  ])
}
