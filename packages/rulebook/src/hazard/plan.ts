import { computeRecipe } from '@forcemeat/craft/recipe/compute'
import type { Recipe } from '@forcemeat/craft/recipe/schema'
import type { Source } from '@forcemeat/craft/source'
import { allRules } from '../catalogue.ts'
import { applies, inForce, unknownFacts } from '../evaluate.ts'
import { completeFacts } from '../recipe/facts.ts'
import { completeMeasures, factsOf } from '../recipe/measures.ts'
import { EVERYWHERE, type Rule } from '../rule.ts'
import { hazards, hazardSteps, stepNames, type Hazard, type HazardStep } from './hazards.ts'

export const planSource: Source = {
  document: 'Codex Alimentarius, General principles of food hygiene (CXC 1-1969), HACCP system: the seven principles',
  section:
    'hazard analysis, critical control points, critical limits, monitoring, corrective action, verification, records',
  edition: 'as revised 2020; principles stated in our own words',
  mark: 'from-memory',
}

/** A critical limit as the rulebook has it on the day. */
export type CriticalLimit = {
  readonly rule: string
  readonly title: string
  readonly jurisdiction: string
  readonly scope: string
  /** Where the recipe does not say whether the rule is for this product: what it is for. */
  readonly ifScope?: string
  /** "at most 156 mg/kg"; a rule that is a table or a set of stages says so. */
  readonly limit: string
  readonly source: string
  /** Not read in its source: to be confirmed before anybody relies on it. */
  readonly unread: boolean
}

export type PlannedHazard = Omit<Hazard, 'topics'> & {
  /** A step with a published limit, at which the hazard is held or nowhere after. */
  readonly critical: boolean
  readonly limits: readonly CriticalLimit[]
}

export type HazardPlan = {
  readonly recipe: { readonly name: string; readonly kind: Recipe['kind'] }
  readonly on: string
  readonly jurisdictions: readonly string[]
  readonly product: readonly (readonly [string, string])[]
  readonly steps: readonly {
    readonly step: HazardStep
    readonly name: string
    readonly how?: string
    readonly hazards: readonly PlannedHazard[]
  }[]
  /** What the recipe leaves open and a plan needs. */
  readonly open: readonly string[]
}

/** Steps this recipe goes through. */
function stepsOf(r: Recipe, cured: boolean): ReadonlySet<HazardStep> {
  const steps = new Set<HazardStep>(['receive', 'store', 'grind', 'mix', 'stuff', 'pack', 'dispatch'])
  if (cured) steps.add('weigh')
  if (r.smoked) steps.add('smoke')
  if (r.cook || r.kind === 'cooked') steps.add('cook').add('chill')
  if (r.kind === 'fermented') steps.add('ferment')
  if (r.kind === 'dried' || r.kind === 'fermented' || r.dry) steps.add('dry')
  return steps
}

const noStandards: ReadonlySet<string> = new Set()

const range = (min: number | undefined, max: number | undefined, unit: string): string => {
  if (min === undefined && max === undefined) return 'table or stages of the rule; each batch is held against it'
  const parts = [...(min === undefined ? [] : [`at least ${min}`]), ...(max === undefined ? [] : [`at most ${max}`])]
  return `${parts.join(', ')}${unit ? ` ${unit}` : ''}`
}

function limitOf(rule: Rule, on: string, unknown: readonly string[]): CriticalLimit | undefined {
  const dated = inForce(rule, on)
  if (!dated) return undefined
  const { document, section, edition, mark } = dated.source
  return {
    rule: rule.id,
    title: rule.title,
    jurisdiction: rule.jurisdiction,
    scope: rule.scope,
    ...(unknown.length > 0 ? { ifScope: rule.scope } : {}),
    limit: range(dated.min, dated.max, rule.unit),
    source: [document, section, edition].filter(Boolean).join(', '),
    unread: mark === 'from-memory',
  }
}

/** Process of a step as the recipe states it. */
function howOf(r: Recipe, step: HazardStep): string | undefined {
  if (step === 'cook' && r.cook) {
    const stages = (r.cook.stages ?? [])
      .map(
        (s) =>
          `${s.medium} ${s.tempC} °C${s.rhPct === undefined ? '' : ` at ${s.rhPct} % RH`}${s.minutes === undefined ? '' : ` for ${s.minutes} min`}${s.untilCoreC === undefined ? '' : ` until ${s.untilCoreC} °C at the core`}`,
      )
      .join('; ')
    return `core ${r.cook.targetCoreC} °C${r.cook.holdMinutes === undefined ? '' : ` held ${r.cook.holdMinutes} min`}${stages ? `; ${stages}` : ''}`
  }
  if (step === 'dry' && r.dry)
    return `loss ${r.dry.lossPct} %${r.dry.days === undefined ? '' : ` in about ${r.dry.days} days`}`
  if (step === 'weigh' && r.nitriteTarget)
    return `ingoing nitrite meant to be ${r.nitriteTarget.lowPpm} to ${r.nitriteTarget.highPpm} mg/kg`
  if (step === 'stuff' && r.casing)
    return `calibre ${r.casing.calibreMm} mm${r.casing.linkG === undefined ? '' : `, links of ${r.casing.linkG} g`}`
  return undefined
}

/** Whether a hazard is one of this product at all. */
function concerns(h: Hazard, r: Recipe, facts: Readonly<Record<string, string | boolean>>): boolean {
  if (h.id === 'receive-trichinella') return facts['species:pork'] === true && r.kind !== 'cooked'
  if (h.id === 'pack-listeria') return r.readyToEat
  return true
}

/**
 * Draft of a hazard plan for one recipe: hazards by step with the limits the rulebook holds for the places on the day. It is a draft:
 * a qualified person completes it for the kitchen and signs it.
 */
export function hazardPlan(recipe: Recipe, on: string, jurisdictions: readonly string[]): HazardPlan {
  const computed = computeRecipe({ recipe, meatKg: 100, lots: [], on })
  const { facts } = computed
  const complete = completeFacts(facts, factsOf(completeMeasures(computed.measures)), noStandards)
  const cured = facts['cured'] === true
  const mine = stepsOf(recipe, cured)
  // Tables of birds say nothing of a product without any.
  const birds = ['chicken', 'turkey', 'duck'].some((b) => facts[`species:${b}`] === true)
  const rules = allRules().filter(
    (r) =>
      r.weight === 'limit' &&
      (r.jurisdiction === EVERYWHERE || jurisdictions.includes(r.jurisdiction)) &&
      !r.id.startsWith('record.') &&
      (applies(r, complete) || unknownFacts(r, complete).length > 0) &&
      (birds || !/\b(chicken|turkey|duck|poultry)\b/i.test(r.title)),
  )
  const planned = ({ topics, ...h }: Hazard): PlannedHazard => {
    const limits = rules
      .filter((r) => topics.includes(r.topic))
      .flatMap((r) => limitOf(r, on, unknownFacts(r, complete)) ?? [])
    return { ...h, critical: topics.length > 0 && topics[0] !== 'process' && topics[0] !== 'label', limits }
  }
  const species = Object.keys(facts)
    .filter((k) => k.startsWith('species:'))
    .map((k) => k.slice('species:'.length))
  const missing = [
    ...(mine.has('cook') && recipe.cook === undefined ? ['the target core temperature of the cook'] : []),
    ...(mine.has('dry') && recipe.dry === undefined ? ['how far it is dried'] : []),
    ...(cured && recipe.nitriteTarget === undefined ? ['the band of ingoing nitrite meant'] : []),
    'who the product is for, and whether infants, the old, the pregnant or the ill eat it',
    'storage, shelf life and the evidence for it',
    'the flow of people, raw and ready-to-eat product through the rooms',
    'validation: the evidence that this process does in this kitchen what the limits assume',
  ]
  return {
    recipe: { name: recipe.name, kind: recipe.kind },
    on,
    jurisdictions,
    product: [
      ['Kind', recipe.kind],
      ['Meat', species.join(', ') || 'not known from its materials'],
      ['Eaten as sold', recipe.readyToEat ? 'yes: ready to eat' : 'no: cooked by the eater'],
      ['Cured', cured ? 'yes' : 'no'],
      ['Smoked', recipe.smoked ? 'yes' : 'no'],
    ],
    steps: hazardSteps
      .filter((s) => mine.has(s))
      .map((step) => {
        const how = howOf(recipe, step)
        return {
          step,
          name: stepNames[step],
          ...(how === undefined ? {} : { how }),
          hazards: hazards.filter((h) => h.step === step && concerns(h, recipe, facts)).map(planned),
        }
      }),
    open: missing,
  }
}

export type PlanChange = { readonly step: string; readonly what: string; readonly was?: string; readonly is?: string }

/** What differs between two plans: steps, how they are done, hazards, limits. */
export function comparePlans(was: HazardPlan, is: HazardPlan): PlanChange[] {
  const changes: PlanChange[] = []
  const before = new Map(was.steps.map((s) => [s.step, s]))
  const after = new Map(is.steps.map((s) => [s.step, s]))
  for (const step of hazardSteps) {
    const [a, b] = [before.get(step), after.get(step)]
    const name = stepNames[step]
    if (!a && !b) continue
    if (!a) changes.push({ step: name, what: 'step added' })
    else if (!b) changes.push({ step: name, what: 'step gone' })
    if (a && b && a.how !== b.how)
      changes.push({
        step: name,
        what: 'how it is done',
        ...(a.how ? { was: a.how } : {}),
        ...(b.how ? { is: b.how } : {}),
      })
    if (!a || !b) continue
    const old = new Map(a.hazards.map((h) => [h.id, h]))
    const now = new Map(b.hazards.map((h) => [h.id, h]))
    for (const [id, h] of now) if (!old.has(id)) changes.push({ step: name, what: 'hazard added', is: h.hazard })
    for (const [id, h] of old) if (!now.has(id)) changes.push({ step: name, what: 'hazard gone', was: h.hazard })
    const limits = (list: readonly PlannedHazard[]) =>
      new Map(
        list.flatMap((h) => h.limits.map((l) => [`${l.rule} ${l.jurisdiction}`, `${l.title}: ${l.limit}`] as const)),
      )
    const [x, y] = [limits(a.hazards), limits(b.hazards)]
    for (const [k, text] of y)
      if (x.get(k) !== text)
        changes.push({
          step: name,
          what: x.has(k) ? 'limit changed' : 'limit added',
          ...(x.has(k) ? { was: x.get(k)! } : {}),
          is: text,
        })
    for (const [k, text] of x) if (!y.has(k)) changes.push({ step: name, what: 'limit gone', was: text })
  }
  const product = new Map(was.product)
  for (const [label, value] of is.product)
    if (product.get(label) !== value)
      changes.push({ step: 'Product', what: label, was: product.get(label) ?? '', is: value })
  return changes
}
