/**
 * Moisture in a long cylinder that shrinks as it dries. Everything is per metre of length and per kilogram of what is not water: a shell
 * keeps its solids, so its water changes by what crosses its two faces and by nothing else, and the balance closes by construction.
 *
 *   dX/dt · dm = J(in) − J(out),  J = 2πr · D · ρ · dX/dr,  ρ = kg of solids per m³ as it stands
 *
 * Finite volumes, finer towards the rim; two implicit stages of second order that damp every mode (Alexander 1977).
 */

/** What leaves the rim, kg/(m²·s), by the water it has, kg/kg; or the rim held at a water content. */
export type Rim =
  | { readonly kind: 'flow'; readonly flow: (water: number) => number }
  | { readonly kind: 'held'; readonly water: number }

export type Material = {
  /** Local diffusivity, m²/s, by water kg/kg. */
  readonly diffusivity: (water: number) => number
  readonly solidKgPerM3: number
  readonly waterKgPerM3: number
  /** False keeps every radius as at the start. */
  readonly shrinks: boolean
}

export type Cylinder = {
  /** Water of each shell, kg per kg of solids, core first. */
  readonly water: Float64Array
  /** Solids of each shell, kg per m of length. */
  readonly solids: Float64Array
  readonly startRadiusM: number
  readonly startWater: number
  material: Material
  rimWater: number
  radiusM: number
  /** Water that has left, kg per m. */
  lostKgPerM: number
  readonly room: Room
}

type Room = {
  readonly face: Float64Array
  /** Diffusivity times solids of each shell. */
  readonly leads: Float64Array
  readonly conductance: Float64Array
  readonly base: Float64Array
  readonly trial: Float64Array
  readonly rate: Float64Array
  readonly upper: Float64Array
  readonly right: Float64Array
}

/** Shells in a working run: the exact series is met within 0.2 % from a hundredth of the drying time on. */
export const WORKING_SHELLS = 24
/** Gathers shells at the rim, where the water falls first. */
const GATHER = 1.4
const GAMMA = 1 - Math.SQRT1_2
const MOST_ROUNDS = 8
const SETTLED = 1e-6
/** Change in the last round that is still let pass, kg/kg: the balance holds whatever it is. */
const NEARLY = 1e-5
/** A rim or shell drier than this share of the start counts as this dry where its properties are asked for. */
const DRIEST = 1e-4
/** A step that does not settle is taken in halves, at most this often. */
const MOST_HALVINGS = 5

export function cylinder(radiusM: number, startWater: number, material: Material, shells = WORKING_SHELLS): Cylinder {
  const face = Float64Array.from({ length: shells + 1 }, (_, i) => radiusM * (1 - (1 - i / shells) ** GATHER))
  const perM3 = 1 / (1 / material.solidKgPerM3 + startWater / material.waterKgPerM3)
  const array = () => new Float64Array(shells)
  return {
    water: array().fill(startWater),
    solids: array().map((_, i) => Math.PI * (face[i + 1]! ** 2 - face[i]! ** 2) * perM3),
    startRadiusM: radiusM,
    startWater,
    material,
    rimWater: startWater,
    radiusM,
    lostKgPerM: 0,
    room: {
      face: face.slice(),
      leads: array(),
      conductance: array(),
      base: array(),
      trial: array(),
      rate: array(),
      upper: array(),
      right: array(),
    },
  }
}

/** Places the faces for a state of water. */
function shape(c: Cylinder, water: Float64Array): void {
  const { face } = c.room
  const { solidKgPerM3, waterKgPerM3, shrinks } = c.material
  if (!shrinks) return
  let square = 0
  for (let i = 0; i < water.length; i++) {
    square += (c.solids[i]! * (1 / solidKgPerM3 + Math.max(0, water[i]!) / waterKgPerM3)) / Math.PI
    face[i + 1] = Math.sqrt(square)
  }
}

/** kg of solids per m³ at a water content. */
const density = (c: Cylinder, water: number): number => {
  const { solidKgPerM3, waterKgPerM3, shrinks } = c.material
  return 1 / (1 / solidKgPerM3 + (shrinks ? Math.max(0, water) : c.startWater) / waterKgPerM3)
}

/**
 * Flow through the rim at the last shell's water, with its slope and the rim's own water: what the half shell brings equals what the air
 * takes. One falls and the other rises with the rim's water, so there is one root; Newton's steps are kept between its two sides.
 */
function throughRim(c: Cylinder, rim: Rim, last: number, conductance: number, around: number) {
  if (rim.kind === 'held') return { flow: conductance * (last - rim.water), slope: conductance, water: rim.water }
  const excess = (x: number) => conductance * (last - x) - around * rim.flow(x)
  let [low, high] = [DRIEST * c.startWater, Math.max(last, c.startWater)]
  for (let i = 0; i < 40 && excess(high) > 0; i++) high *= 2
  let water = Math.min(high, Math.max(low, c.rimWater))
  let slope = 0
  for (let i = 0; i < 60; i++) {
    const over = excess(water)
    if (over > 0) low = water
    else high = water
    const step = 1e-6 * Math.max(0.01, water)
    slope = Math.max(0, (around * (rim.flow(water + step) - rim.flow(water))) / step)
    const next = water + over / (conductance + slope)
    const kept = next > low && next < high ? next : (low + high) / 2
    const moved = kept - water
    water = kept
    if (Math.abs(moved) < 1e-10) break
  }
  return { flow: conductance * (last - water), slope: (conductance * slope) / (conductance + slope), water }
}

/** One implicit stage: finds trial = base + span · rate(trial), leaves the rate and returns the flow at the rim, kg/(m·s). */
function stage(c: Cylinder, rim: Rim, span: number): { flow: number; settled: boolean } {
  const { face, leads, conductance, base, trial, rate, upper, right } = c.room
  const { diffusivity } = c.material
  const n = trial.length
  let flow = 0
  let settled = false
  for (let round = 0; round < MOST_ROUNDS; round++) {
    shape(c, trial)
    for (let i = 0; i < n; i++) leads[i] = diffusivity(trial[i]!) * density(c, trial[i]!)
    // In the square of the radius a parabola, the shape drying tends to, is a straight line and its differences are exact.
    let square = 0
    let middle = 0
    for (let i = 0; i < n; i++) {
      const next = face[i + 1]! ** 2
      const centre = (square + next) / 2
      // Between two shells the flow sees them one after the other.
      if (i > 0)
        conductance[i - 1] =
          (4 * Math.PI * square) / ((square - middle) / leads[i - 1]! + (centre - square) / leads[i]!)
      square = next
      middle = centre
    }
    const radius = face[n]!
    const last = trial[n - 1]!
    const between = (last + c.rimWater) / 2
    const half = (4 * Math.PI * radius ** 2 * diffusivity(between) * density(c, between)) / (radius ** 2 - middle)
    const out = throughRim(c, rim, last, half, 2 * Math.PI * radius)
    c.rimWater = out.water
    // Tridiagonal, swept from the core out.
    for (let i = 0; i < n; i++) {
      const k = span / c.solids[i]!
      const inward = i > 0 ? k * conductance[i - 1]! : 0
      const outward = i < n - 1 ? k * conductance[i]! : 0
      let diagonal = 1 + inward + outward
      let value = base[i]!
      if (i === n - 1) {
        diagonal += k * out.slope
        value -= k * (out.flow - out.slope * last)
      }
      const pivot = diagonal - (i > 0 ? inward * upper[i - 1]! : 0)
      upper[i] = outward / pivot
      right[i] = (value + (i > 0 ? inward * right[i - 1]! : 0)) / pivot
    }
    let change = 0
    for (let i = n - 1; i >= 0; i--) {
      const next = right[i]! + (i < n - 1 ? upper[i]! * trial[i + 1]! : 0)
      change = Math.max(change, Math.abs(next - trial[i]!))
      trial[i] = next
    }
    flow = out.flow + out.slope * (trial[n - 1]! - last)
    settled = change < NEARLY && trial[n - 1]! > 0
    if (settled && change < SETTLED) break
  }
  // The rate from the very flows of the last round: what leaves one shell enters the next, to the last bit.
  let inflow = 0
  for (let i = 0; i < n; i++) {
    const outflow = i < n - 1 ? conductance[i]! * (trial[i]! - trial[i + 1]!) : flow
    rate[i] = (inflow - outflow) / c.solids[i]!
    inflow = outflow
  }
  return { flow, settled }
}

/** Moves the cylinder on by `seconds` in one step of second order, or in halves where it would not settle; the smallest is taken as it is. */
export function advance(c: Cylinder, rim: Rim, seconds: number, halvings = 0): void {
  const { base, trial, rate } = c.room
  const { water, rimWater } = c
  base.set(water)
  trial.set(water)
  const first = stage(c, rim, GAMMA * seconds)
  for (let i = 0; i < water.length; i++) base[i] = water[i]! + (1 - GAMMA) * seconds * rate[i]!
  const second = stage(c, rim, GAMMA * seconds)
  if (!(first.settled && second.settled) && halvings < MOST_HALVINGS) {
    c.rimWater = rimWater
    advance(c, rim, seconds / 2, halvings + 1)
    advance(c, rim, seconds / 2, halvings + 1)
    return
  }
  for (let i = 0; i < water.length; i++) water[i] = base[i]! + GAMMA * seconds * rate[i]!
  c.lostKgPerM += seconds * ((1 - GAMMA) * first.flow + GAMMA * second.flow)
  shape(c, water)
  c.radiusM = c.material.shrinks ? c.room.face[water.length]! : c.startRadiusM
}

/** Water in the cylinder, kg per m. */
export function waterKgPerM(c: Cylinder): number {
  let sum = 0
  for (let i = 0; i < c.water.length; i++) sum += c.water[i]! * c.solids[i]!
  return sum
}

/** Solids, kg per m. */
export const solidsKgPerM = (c: Cylinder): number => c.solids.reduce((s, m) => s + m, 0)

/** Mean water, kg per kg of solids. */
export const meanWater = (c: Cylinder): number => waterKgPerM(c) / solidsKgPerM(c)
