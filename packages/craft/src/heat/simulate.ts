import { createBody, GAMMA, type Body, type BodyMaterial, type BodyShape, type BodyStep, type Mesh } from './body.ts'
import { carried, CRUST_HALVES_KG_PER_M2, FILM_HOLDS_KG_PER_M2, type Exchange } from './exchange.ts'

/** Films of heat and of vapour, W/(m²·K). */
export type Film = { readonly heat: number; readonly vapour: number }

/** A stage ready to run; times in seconds from the stage's start. */
export type RunStage = {
  /** Film coefficient, W/(m²·K), or how to find it from the surface temperature the stage starts with. */
  readonly film: number | ((surfaceC: number) => Film)
  readonly mediumC: (s: number) => number
  /** Humidity ratio of the air; missing where no vapour is exchanged. */
  readonly ratio?: (s: number) => number
  readonly durationS?: number
  readonly untilCoreC?: number
  /** Instants at which the medium's course bends, to be met by a step. */
  readonly bends?: readonly number[]
  /** True where the piece lies in water and comes out wet. */
  readonly immersed?: boolean
}

/** How the surface gives off water. */
export type Wetting =
  | { readonly kind: 'moisture-proof' }
  | { readonly kind: 'wet' }
  /** Wet until this much is lost per area, kg/m², then drying to a crust. */
  | { readonly kind: 'drying'; readonly criticalKgPerM2: number }

export type RunOptions = {
  readonly mesh: Mesh
  /** Local error a step may make, °C. */
  readonly toleranceC: number
  readonly longestStepS: number
  /** Same step throughout, for tests of order. */
  readonly fixedStepS?: number
  /** Ends the running stage when it says so after a step. */
  readonly endStage?: (point: TracePoint) => boolean
}
export const WORKING: Omit<RunOptions, 'mesh'> = { toleranceC: 2e-3, longestStepS: 300 }

/** One accepted step's end. */
export type TracePoint = { s: number; houseC: number; coreC: number; surfaceC: number; stage: number; lostKg: number }
export type StageEnd = {
  startS: number
  endS: number
  filmWPerM2K: number
  coreC: number
  surfaceC: number
  meanC: number
  lostKg: number
  /** False where `untilCoreC` was set and the time ran out before. */
  reached: boolean
  /** Why the stage could not end by core temperature. */
  stalledAtC?: number
}
export type Run = {
  readonly points: TracePoint[]
  readonly stages: StageEnd[]
  readonly massKg: number
  readonly areaM2: number
  /** Heat that came in through the surface, J, and the change of heat held. */
  readonly enteredJ: number
  readonly heldJ: number
  /** Largest heat turnover, J: the scale for judging the difference. */
  readonly turnoverJ: number
  readonly steps: number
  readonly body: Body
  readonly lowestC: number
}

/** Least a stage waits for its core temperature. */
const LEAST_WAIT_S = 72 * 3600
/** And as long as heat takes to pass the radius this many times (Fourier number). */
const LEAST_WAIT_FOURIER = 4
/** A core moving slower than this, °C per hour, is not going to get there, … */
const STALL_C_PER_H = 0.02
/** … where the surface is no further from it than this, °C: in a thick piece the core stands still for hours before the heat reaches it. */
const STALL_EVEN_C = 0.05
const FIRST_STEP_S = 0.25
/** A hot wet surface thrown into dry, fast air needs steps of a tenth of a millisecond at first; none needs less than this. */
const SHORTEST_STEP_S = 1e-6

/** Run a body through stages. Stops early at a stage that cannot reach its core temperature. */
export function simulate(
  shape: BodyShape,
  material: BodyMaterial,
  startC: number,
  stages: readonly RunStage[],
  wetting: Wetting,
  pressurePa: number,
  options: RunOptions,
): Run {
  const body = createBody(shape, material, startC, options.mesh)
  const points: TracePoint[] = []
  const ends: StageEnd[] = []
  const out: BodyStep = { error: 0, entered: 0, evaporated: 0 }
  // Two passes a step in a short piece each report their own error; the larger need not be held as tight.
  const tolerance = options.toleranceC * (shape.lengthM === undefined ? 1 : 4)
  // Even a mix without water is given a trace of it, so that nothing is divided by zero.
  const waterKg = Math.max(1e-9, body.massKg * material.waterShare)
  const atStart = body.heatJ()
  const passesS = (shape.radiusM ** 2 * material.heat[0]) / material.conductivity[0]
  const longestWaitS = Math.max(LEAST_WAIT_S, LEAST_WAIT_FOURIER * passesS)
  let [now, entered, turnover, steps, lost, film, lastRate, lowest] = [0, 0, 0, 0, 0, 0, 0, startC]

  const ownWetness = (dt: number): number => {
    if (wetting.kind === 'moisture-proof') return 0
    if (wetting.kind === 'wet') return 1
    // Loss at mid-step, from the last step's rate, keeps the lag of this factor second order.
    const perArea = lost / body.areaM2 + (Math.max(0, lastRate) * dt) / 2
    const past = perArea - wetting.criticalKgPerM2
    return past <= 0 ? 1 : 1 / (1 + past / CRUST_HALVES_KG_PER_M2)
  }
  const wetness = (dt: number): number => {
    // A piece cannot give more water than it holds: with a tenth of it left the flow falls off in a straight line.
    const own = ownWetness(dt) * Math.min(1, Math.max(0, 10 * (1 - lost / waterKg)))
    if (film === 0 || lastRate <= 0) return film > 0 ? 1 : own
    // Condensate that will not last the step wets the surface for the part it lasts.
    const covered = Math.min(1, film / (lastRate * dt))
    return covered + (1 - covered) * own
  }

  for (const [index, stage] of stages.entries()) {
    const { heat: h, vapour } =
      typeof stage.film === 'number' ? { heat: stage.film, vapour: stage.film } : stage.film(body.surfaceC())
    const startS = now
    const startCore = body.coreC()
    const at = (s: number, wet: number): Exchange => {
      const mediumC = stage.mediumC(s)
      if (!stage.ratio) return { filmWPerM2K: h, mediumC }
      return {
        filmWPerM2K: h,
        vapourFilmWPerM2K: vapour,
        mediumC,
        humid: { pressurePa, ratio: carried(stage.ratio(s), mediumC, pressurePa), wetness: wet },
      }
    }
    const target = stage.untilCoreC
    const rising = target !== undefined && startCore < target
    const done = (core: number) => target !== undefined && (rising ? core >= target : core <= target)
    const already = target !== undefined && !rising && stage.mediumC(stage.durationS ?? 0) >= startCore
    const limit = stage.durationS ?? longestWaitS
    const mustMeet = [...(stage.bends ?? []).filter((b) => b > 0 && b < limit), limit].sort((a, b) => a - b)
    points.push({
      s: now,
      houseC: stage.mediumC(0),
      coreC: startCore,
      surfaceC: body.surfaceC(),
      stage: index,
      lostKg: lost,
    })
    const advance = (dt: number) => {
      const s = now - startS
      const wet = wetness(dt)
      body.step(dt, [at(s, wet), at(s + GAMMA * dt, wet), at(s + dt, wet)], out)
    }
    const accept = (dt: number) => {
      now += dt
      steps++
      entered += out.entered
      turnover += Math.abs(out.entered)
      lastRate = out.evaporated / body.areaM2 / dt
      if (out.evaporated < 0) film = Math.min(FILM_HOLDS_KG_PER_M2, film - out.evaporated / body.areaM2)
      else {
        const fromFilm = Math.min(film, out.evaporated / body.areaM2)
        film -= fromFilm
        // A casing that keeps all water loses none, whatever a step took beyond the last of the film.
        if (wetting.kind !== 'moisture-proof')
          lost = Math.min(waterKg, lost + Math.max(0, out.evaporated - fromFilm * body.areaM2))
      }
      lowest = Math.min(lowest, body.surfaceC())
      points.push({
        s: now,
        houseC: stage.mediumC(now - startS),
        coreC: body.coreC(),
        surfaceC: body.surfaceC(),
        stage: index,
        lostKg: lost,
      })
    }

    let dt = options.fixedStepS ?? FIRST_STEP_S
    let reached = target === undefined || already || done(startCore)
    let stalled = false
    let [hourMark, hourCore] = [0, startCore]
    for (;;) {
      if ((target !== undefined && reached) || stalled) break
      const s = now - startS
      const meet = mustMeet.find((m) => m > s + 1e-9)
      if (meet === undefined) break
      const left = meet - s
      const step = left <= dt * 1.0001 ? left : left < 2 * dt ? left / 2 : dt
      const before = body.coreC()
      body.save()
      advance(step)
      if (options.fixedStepS === undefined) {
        const grow = 0.9 * Math.cbrt(tolerance / Math.max(Number.isNaN(out.error) ? Infinity : out.error, 1e-9))
        if (!(out.error <= tolerance) && step > SHORTEST_STEP_S) {
          body.restore()
          dt = step * Math.max(0.2, Math.min(0.7, grow))
          continue
        }
        dt = Math.min(options.longestStepS, Math.max(dt, step) * Math.min(2.5, Math.max(0.5, grow)))
      }
      if (done(body.coreC())) {
        accept(meetCore(body, step, before, target!, advance))
        reached = true
        continue
      }
      accept(step)
      if (options.endStage?.(points.at(-1)!)) break
      if (target !== undefined && stage.durationS === undefined && now - startS - hourMark >= 3600) {
        const hours = (now - startS - hourMark) / 3600
        stalled =
          Math.abs(body.coreC() - hourCore) / hours < STALL_C_PER_H &&
          Math.abs(body.surfaceC() - body.coreC()) < STALL_EVEN_C &&
          (stage.bends ?? []).every((b) => b < hourMark)
        hourMark = now - startS
        hourCore = body.coreC()
      }
    }
    const end: StageEnd = {
      startS,
      endS: now,
      filmWPerM2K: h,
      coreC: body.coreC(),
      surfaceC: body.surfaceC(),
      meanC: body.meanC(),
      lostKg: lost,
      reached,
    }
    if (!reached && stage.durationS === undefined) end.stalledAtC = body.coreC()
    if (stage.immersed) film = FILM_HOLDS_KG_PER_M2
    ends.push(end)
    if (end.stalledAtC !== undefined) break
  }
  return {
    points,
    stages: ends,
    massKg: body.massKg,
    areaM2: body.areaM2,
    enteredJ: entered,
    heldJ: body.heatJ() - atStart,
    turnoverJ: turnover,
    steps,
    body,
    lowestC: lowest,
  }
}

/** Shorten the step just made until the core meets its target at the end of it; leaves the body there. Returns the step, s. */
function meetCore(body: Body, step: number, before: number, target: number, advance: (dt: number) => void): number {
  let [low, high] = [0, step]
  let [fLow, fHigh] = [before - target, body.coreC() - target]
  let dt = step
  for (let i = 0; i < 30 && Math.abs(body.coreC() - target) > 1e-6; i++) {
    const secant = low + ((high - low) * -fLow) / (fHigh - fLow)
    dt = Number.isFinite(secant) && secant > low && secant < high ? secant : (low + high) / 2
    // Pull the secant off an end it keeps returning to.
    if (i > 0 && i % 3 === 0) dt = (low + high) / 2
    body.restore()
    advance(dt)
    const f = body.coreC() - target
    if (f * fLow > 0) [low, fLow] = [dt, f]
    else [high, fHigh] = [dt, f]
  }
  return dt
}
