import type { Move } from './clash.ts'
import type { Problem } from './assemble.ts'
import type { Relax } from './schema.ts'

const named: Readonly<Record<string, string>> = {
  fat: 'fat',
  protein: 'protein',
  water: 'water',
  collagen: 'collagen',
  salt: 'salt',
  addedWater: 'added water',
  fatPlusAddedWater: 'fat and added water together',
  collagenInProtein: 'collagen as a share of protein',
}
const shown = (x: number): string => String(Number(x.toPrecision(6)))

/** A requirement as it is told: what it is on, its side and value, and a sentence. */
export function told(problem: Problem, n: number) {
  const r = problem.requirements[n]!
  const batch = r.batch === undefined ? undefined : problem.batches[r.batch]?.id
  const where = batch === undefined ? '' : ` in ${batch}`
  const subject = named[r.of] ?? r.of
  const unit = r.basis === undefined ? r.unit : `${r.unit} of the ${r.basis}`
  const phrase = {
    min: `${subject}${where} at least ${shown(r.value)} ${unit}`,
    max: `${subject}${where} at most ${shown(r.value)} ${unit}`,
    available: `only ${shown(r.value)} kg of ${subject} in stock`,
    whole: `${subject}${where} in whole boxes of ${shown(r.value)} kg`,
  }[r.side]
  return {
    of: r.of,
    side: r.side,
    value: r.value,
    unit: r.unit,
    ...(batch === undefined ? {} : { batch }),
    text: phrase,
  }
}

/** A move rounded outward, so that the figure shown does free the blend. */
function outward(to: number, from: number): string {
  const step = 0.01
  const rounded = to > from ? Math.ceil(to / step - 1e-6) * step : Math.floor(to / step + 1e-6) * step
  return shown(rounded)
}

export function toldMoves(
  problem: Problem,
  moves: { readonly alone: readonly Move[]; readonly together: readonly Move[] },
): Relax {
  const tell = (m: Move): Relax['alone'][number] => {
    const t = told(problem, m.requirement)
    return { ...t, to: m.to, text: `${t.text}: would have to be ${outward(m.to, t.value)} ${t.unit}` }
  }
  return { alone: moves.alone.map(tell), together: moves.together.map(tell) }
}
