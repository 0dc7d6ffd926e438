/**
 * One line of control volumes with no flow at its inner end and a surface at its outer end: the radius of a cylinder, or half of
 * its length. Nodes sit at the ends too, so core and surface temperature are unknowns and need no extrapolation.
 */
export type Line = {
  /** Number of nodes. */
  readonly size: number
  /** Distance of each node from the inner end, m. */
  readonly place: Float64Array
  /** Volume of each control volume, per unit of the other directions. */
  readonly volume: Float64Array
  /** Area of the face between node i and i + 1 over their distance. */
  readonly link: Float64Array
  /** Area of the outer surface. */
  readonly surface: number
}

/** How far nodes crowd towards the surface: 0 even, 1 touching. Steps of the air's temperature start there. */
const CROWDING = 0.8
/** Along half a length the middle matters as much as the end, and fewer nodes do. */
const CROWDING_AXIAL = 0.7

/** Nodes from 0 to `extent`, spacing falling linearly towards the surface (smooth, so second order holds). */
function places(size: number, extent: number, crowding: number): Float64Array {
  return Float64Array.from({ length: size }, (_, i) => {
    const x = i / (size - 1)
    return extent * ((1 - crowding) * x + crowding * (1 - (1 - x) ** 2))
  })
}

function line(size: number, extent: number, radial: boolean): Line {
  const place = places(size, extent, radial ? CROWDING : CROWDING_AXIAL)
  const area = (x: number) => (radial ? 2 * Math.PI * x : 1)
  const within = (x: number) => (radial ? Math.PI * x * x : x)
  const volume = new Float64Array(size)
  const link = new Float64Array(size)
  let inner = 0
  for (let i = 0; i < size; i++) {
    const outer = i + 1 < size ? (place[i]! + place[i + 1]!) / 2 : extent
    volume[i] = within(outer) - within(inner)
    if (i + 1 < size) link[i] = area(outer) / (place[i + 1]! - place[i]!)
    inner = outer
  }
  return { size, place, volume, link, surface: area(extent) }
}

/** Radius of a cylinder, per metre of its length. */
export const radialLine = (size: number, radiusM: number): Line => line(size, radiusM, true)
/** Half the length of a cylinder, per square metre of its cross-section. */
export const axialLine = (size: number, halfLengthM: number): Line => line(size, halfLengthM, false)

/** What the body is made of: heat capacity per volume and conductivity as polynomials of °C, ready for the inner loop. */
export type Material = {
  /** Heat content per volume, J/m³ = h1·T + h2·T² + h3·T³. */
  readonly heat: readonly [number, number, number]
  /** Conductivity, W/(m·K) = k0 + k1·T + k2·T² + k3·T³. */
  readonly conductivity: readonly [number, number, number, number]
}

/** Flow of heat into the surface, W/m², at a surface temperature; and its fall per degree (≥ 0). Reused object: read at once. */
export type SurfaceFlow = { flow: number; fall: number }
export type Surface = (surfaceC: number, out: SurfaceFlow) => void

// TR-BDF2 (Bank et al. 1985) in the form of a stiffly accurate Runge–Kutta scheme: second order, L-stable, so that a leap of the
// air's temperature leaves no ringing; error weights of Hosea & Shampine 1996.
export const GAMMA = 2 - Math.SQRT2
const W = Math.SQRT2 / 4
const D = GAMMA / 2
const E0 = (1 - W) / 3 - W
const E1 = (3 * W + 1) / 3 - W
const E2 = D / 3 - D

/** Newton stops when no node moves by more than this, °C; the energy books then close far inside 1e-6. */
const NEWTON_C = 2e-6
const NEWTON_MOST = 12

/** Working arrays for lines up to a size; one per solver, no allocation inside a step. */
export type Workspace = ReturnType<typeof createWorkspace>
export function createWorkspace(size: number) {
  const array = () => new Float64Array(size)
  return {
    old: array(), // T at the start
    mid: array(), // T of the inner stage
    heat0: array(), // heat content at the start
    rate0: array(), // net heat into each node at the start, W
    rate1: array(),
    rate2: array(),
    known: array(),
    face: array(), // conductance of each face at the last rates, W/K
    upper: array(),
    right: array(),
    flow: { flow: 0, fall: 0 },
  }
}

export type StepResult = {
  /** Estimate of the largest local error of a node, °C. */
  error: number
  /** Heat that entered through the surface in the step, J per unit of the other directions. */
  entered: number
  /** Surface temperature at the three stages. */
  surface0: number
  surface1: number
  surface2: number
}

/** Share of each of the three stages in an integral over the step: exact books need the scheme's own weights. */
export const STAGE_WEIGHTS = [W, W, D] as const

/** Net heat into each node, W. Returns the heat through the surface. */
function rates(ln: Line, m: Material, t: Float64Array, surface: Surface, ws: Workspace, out: Float64Array): number {
  const { size, link } = ln
  const { face } = ws
  const [k0, k1, k2, k3] = m.conductivity
  let before = 0
  let here = t[0]!
  let kHere = k0 + here * (k1 + here * (k2 + here * k3))
  for (let i = 0; i < size - 1; i++) {
    const next = t[i + 1]!
    const kNext = k0 + next * (k1 + next * (k2 + next * k3))
    const g = link[i]! * 0.5 * (kHere + kNext)
    face[i] = g
    const q = g * (next - here)
    out[i] = q - before
    before = q
    here = next
    kHere = kNext
  }
  surface(here, ws.flow)
  const entered = ln.surface * ws.flow.flow
  out[size - 1] = entered - before
  return entered
}

/** Solve heat(T) = known + c·rate(T) for T in place, by Newton with the conductivity of the last iterate. */
function solveStage(
  ln: Line,
  m: Material,
  t: Float64Array,
  c: number,
  surface: Surface,
  ws: Workspace,
  rate: Float64Array,
): void {
  const { size, volume } = ln
  const [h1, h2, h3] = m.heat
  const { known, upper, right, face } = ws
  for (let round = 0; round < NEWTON_MOST; round++) {
    rates(ln, m, t, surface, ws, rate)
    let left = 0
    for (let i = 0; i < size; i++) {
      const x = t[i]!
      const toNext = c * (i < size - 1 ? face[i]! : ln.surface * ws.flow.fall)
      const v = volume[i]!
      const residual = known[i]! + c * rate[i]! - v * x * (h1 + x * (h2 + x * h3))
      const diagonal = v * (h1 + x * (2 * h2 + 3 * h3 * x)) + left + toNext
      // Forward sweep of the tridiagonal system; the last node's outward term is the surface and couples to nothing.
      const pivot = i === 0 ? diagonal : diagonal - left * upper[i - 1]!
      upper[i] = i < size - 1 ? toNext / pivot : 0
      right[i] = (residual + (i === 0 ? 0 : left * right[i - 1]!)) / pivot
      left = toNext
    }
    let moved = 0
    let shift = 0
    for (let i = size - 1; i >= 0; i--) {
      shift = right[i]! + upper[i]! * shift
      t[i] = t[i]! + shift
      const size1 = shift < 0 ? -shift : shift
      if (size1 > moved) moved = size1
    }
    if (moved < NEWTON_C) break
  }
}

/**
 * One step of `dt` seconds along a line, in place. `surfaces` are the surface's laws at the start, at GAMMA of the step, and at its end.
 * Heat is what is stepped, so what a node gains its neighbours and the surface lose.
 */
export function stepLine(
  ln: Line,
  m: Material,
  t: Float64Array,
  dt: number,
  surfaces: readonly [Surface, Surface, Surface],
  ws: Workspace,
  result: StepResult,
): void {
  const { size, volume } = ln
  const [h1, h2, h3] = m.heat
  const { heat0, rate0, rate1, rate2, known, old } = ws
  result.surface0 = t[size - 1]!
  const q0 = rates(ln, m, t, surfaces[0], ws, rate0)
  for (let i = 0; i < size; i++) {
    const x = t[i]!
    old[i] = x
    heat0[i] = volume[i]! * x * (h1 + x * (h2 + x * h3))
    known[i] = heat0[i]! + D * dt * rate0[i]!
  }
  solveStage(ln, m, t, D * dt, surfaces[1], ws, rate1)
  const q1 = rates(ln, m, t, surfaces[1], ws, rate1)
  result.surface1 = t[size - 1]!
  for (let i = 0; i < size; i++) known[i] = heat0[i]! + W * dt * (rate0[i]! + rate1[i]!)
  // The line through start and inner stage is a good first guess of the end.
  for (let i = 0; i < size; i++) t[i] = old[i]! + (t[i]! - old[i]!) / GAMMA
  solveStage(ln, m, t, D * dt, surfaces[2], ws, rate2)
  const q2 = rates(ln, m, t, surfaces[2], ws, rate2)
  result.surface2 = t[size - 1]!
  result.entered = dt * (W * (q0 + q1) + D * q2)
  result.error = localError(ln, m, t, dt, ws)
}

/** The embedded third-order error, smoothed by one implicit solve so that stiff nodes do not cry wolf. */
function localError(ln: Line, m: Material, t: Float64Array, dt: number, ws: Workspace): number {
  const { size, volume, link } = ln
  const { rate0, rate1, rate2, upper, right, flow } = ws
  const [h1, h2, h3] = m.heat
  const c = D * dt
  let left = 0
  for (let i = 0; i < size; i++) {
    const x = t[i]!
    const toNext = i < size - 1 ? c * link[i]! * m.conductivity[0] : c * ln.surface * flow.fall
    const diagonal = volume[i]! * (h1 + x * (2 * h2 + 3 * h3 * x)) + left + toNext
    const pivot = i === 0 ? diagonal : diagonal - left * upper[i - 1]!
    upper[i] = i < size - 1 ? toNext / pivot : 0
    const e = dt * (E0 * rate0[i]! + E1 * rate1[i]! + E2 * rate2[i]!)
    right[i] = (e + (i === 0 ? 0 : left * right[i - 1]!)) / pivot
    left = toNext
  }
  let worst = 0
  let shift = 0
  for (let i = size - 1; i >= 0; i--) {
    shift = right[i]! + upper[i]! * shift
    const e = shift < 0 ? -shift : shift
    if (e > worst) worst = e
  }
  return worst
}

/** Heat content of a line, J per unit of the other directions, zero at 0 °C. */
export function heatOf(ln: Line, m: Material, t: Float64Array): number {
  const [h1, h2, h3] = m.heat
  let sum = 0
  for (let i = 0; i < ln.size; i++) sum += ln.volume[i]! * t[i]! * (h1 + t[i]! * (h2 + t[i]! * h3))
  return sum
}

/** Temperature that spread evenly holds this heat per volume, J/m³. */
export function temperatureOf(m: Material, heatPerVolume: number): number {
  const [h1, h2, h3] = m.heat
  let t = heatPerVolume / h1
  for (let i = 0; i < 20; i++) t -= (t * (h1 + t * (h2 + t * h3)) - heatPerVolume) / (h1 + t * (2 * h2 + 3 * h3 * t))
  return t
}
