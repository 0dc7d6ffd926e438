import {
  axialLine,
  createWorkspace,
  GAMMA,
  heatOf,
  radialLine,
  STAGE_WEIGHTS,
  stepLine,
  temperatureOf,
  type Material,
  type StepResult,
} from './conduction.ts'
import { surfaceOf, vapourFlow, type Exchange } from './exchange.ts'

/** Nodes of a mesh: along the radius of an endless piece; along radius and half the length of a short one. */
export type Mesh = { readonly radial: number; readonly shortRadial: number; readonly axial: number }
/** Fine enough for 0.05 °C at the surface a minute after a leap of 60 °C at Biot 100 (shown by tests). */
export const WORKING_MESH: Mesh = { radial: 56, shortRadial: 44, axial: 24 }
export const COARSE_MESH: Mesh = { radial: 32, shortRadial: 20, axial: 10 }

/** Exchange laws at the start, at GAMMA, and at the end of a step. */
export type Exchanges = readonly [Exchange, Exchange, Exchange]
export type BodyStep = {
  /** Largest estimated local error, °C. */
  error: number
  /** Heat that came in, J. */
  entered: number
  /** Vapour that left, kg; negative when more condensed. */
  evaporated: number
}

/** A piece of sausage being heated or cooled; all extensive figures are for the piece, or per metre when it is endless. */
export type Body = {
  readonly areaM2: number
  readonly massKg: number
  readonly step: (dt: number, x: Exchanges, out: BodyStep) => void
  readonly coreC: () => number
  readonly surfaceC: () => number
  readonly meanC: () => number
  readonly heatJ: () => number
  readonly save: () => void
  readonly restore: () => void
  /** Temperatures from axis to surface at mid-length. */
  readonly profile: () => { placeM: Float64Array; tempC: Float64Array }
}

/** Material with the density that makes it mass, kg/m³, and the share of water it can give off. */
export type BodyMaterial = Material & { readonly density: number; readonly waterShare: number }
export type BodyShape = { readonly radiusM: number; readonly lengthM?: number }

export function createBody(shape: BodyShape, material: BodyMaterial, startC: number, mesh: Mesh): Body {
  return shape.lengthM === undefined
    ? endless(shape.radiusM, material, startC, mesh)
    : finite(shape.radiusM, shape.lengthM, material, startC, mesh)
}

const emptyResult = (): StepResult => ({ error: 0, entered: 0, surface0: 0, surface1: 0, surface2: 0 })

/** Vapour given off over a step, kg/m², with the weights of the scheme. */
const vapourOver = (dt: number, x: Exchanges, r: StepResult): number =>
  dt *
  (STAGE_WEIGHTS[0] * vapourFlow(x[0], r.surface0) +
    STAGE_WEIGHTS[1] * vapourFlow(x[1], r.surface1) +
    STAGE_WEIGHTS[2] * vapourFlow(x[2], r.surface2))

function endless(radiusM: number, material: BodyMaterial, startC: number, mesh: Mesh): Body {
  const ln = radialLine(mesh.radial, radiusM)
  const ws = createWorkspace(ln.size)
  const t = new Float64Array(ln.size).fill(startC)
  const saved = t.slice()
  const result = emptyResult()
  const volume = Math.PI * radiusM ** 2
  return {
    areaM2: ln.surface,
    massKg: volume * material.density,
    step(dt, x, out) {
      stepLine(ln, material, t, dt, [surfaceOf(x[0]), surfaceOf(x[1]), surfaceOf(x[2])], ws, result)
      out.error = result.error
      out.entered = result.entered
      out.evaporated = ln.surface * vapourOver(dt, x, result)
    },
    coreC: () => t[0]!,
    surfaceC: () => t[ln.size - 1]!,
    meanC: () => temperatureOf(material, heatOf(ln, material, t) / volume),
    heatJ: () => heatOf(ln, material, t),
    save: () => saved.set(t),
    restore: () => t.set(saved),
    profile: () => ({ placeM: ln.place, tempC: t.slice() }),
  }
}

/**
 * Short cylinder: each step goes along all radii and along all lengths in turn, the order swapped every step. With constant properties the two directions
 * commute and the split costs nothing (it is the product solution, step by step); otherwise it stays second order. Heat is conserved by each pass.
 */
function finite(radiusM: number, lengthM: number, material: BodyMaterial, startC: number, mesh: Mesh): Body {
  const r = radialLine(mesh.shortRadial, radiusM)
  const z = axialLine(mesh.axial, lengthM / 2)
  const [nr, nz] = [r.size, z.size]
  const ws = createWorkspace(Math.max(nr, nz))
  const t = new Float64Array(nr * nz).fill(startC)
  const saved = t.slice()
  const rows = Array.from({ length: nz }, (_, j) => t.subarray(j * nr, (j + 1) * nr))
  const column = new Float64Array(nz)
  const result = emptyResult()
  let radialFirst = true
  let savedOrder = true
  const volume = Math.PI * radiusM ** 2 * lengthM

  function alongRadii(dt: number, x: Exchanges, out: BodyStep) {
    const laws = [surfaceOf(x[0]), surfaceOf(x[1]), surfaceOf(x[2])] as const
    for (let j = 0; j < nz; j++) {
      stepLine(r, material, rows[j]!, dt, laws, ws, result)
      const weight = 2 * z.volume[j]!
      out.error = Math.max(out.error, result.error)
      out.entered += weight * result.entered
      out.evaporated += weight * r.surface * vapourOver(dt, x, result)
    }
  }
  function alongLengths(dt: number, x: Exchanges, out: BodyStep) {
    const laws = [surfaceOf(x[0]), surfaceOf(x[1]), surfaceOf(x[2])] as const
    for (let i = 0; i < nr; i++) {
      for (let j = 0; j < nz; j++) column[j] = t[j * nr + i]!
      stepLine(z, material, column, dt, laws, ws, result)
      for (let j = 0; j < nz; j++) t[j * nr + i] = column[j]!
      const weight = 2 * r.volume[i]!
      out.error = Math.max(out.error, result.error)
      out.entered += weight * result.entered
      out.evaporated += weight * vapourOver(dt, x, result)
    }
  }
  const heatJ = () => rows.reduce((sum, row, j) => sum + 2 * z.volume[j]! * heatOf(r, material, row), 0)

  return {
    areaM2: 2 * Math.PI * radiusM * (lengthM + radiusM),
    massKg: volume * material.density,
    step(dt, x, out) {
      out.error = out.entered = out.evaporated = 0
      if (radialFirst) alongRadii(dt, x, out)
      alongLengths(dt, x, out)
      if (!radialFirst) alongRadii(dt, x, out)
      radialFirst = !radialFirst
    },
    coreC: () => t[0]!,
    surfaceC: () => t[nr - 1]!,
    meanC: () => temperatureOf(material, heatJ() / volume),
    heatJ,
    save: () => {
      saved.set(t)
      savedOrder = radialFirst
    },
    restore: () => {
      t.set(saved)
      radialFirst = savedOrder
    },
    profile: () => ({ placeM: r.place, tempC: t.slice(0, nr) }),
  }
}

export { GAMMA }
