import { InvalidInput } from '@forcemeat/craft/calculation'
import type { Verdict, WorkingStep } from '@forcemeat/craft/finding'
import { boilingPoint, boilingPointInput } from '@forcemeat/craft/instrument/boiling-point'
import { scaleTolerance, scaleToleranceInput } from '@forcemeat/craft/instrument/scale-tolerance'
import { thermometerCheck, thermometerCheckInput } from '@forcemeat/craft/instrument/thermometer-check'
import { readPlain } from '../../state/reader.ts'
import type { InstrumentView } from '../../state/views.ts'
import { editable } from '../../ui/figures.ts'

export type Asked = {
  readonly instrument: InstrumentView
  readonly method: string
  readonly altitudeM: number | undefined
  /** Texts of the form. */
  readonly pressure: string
  readonly reference: string
  readonly reading: string
  readonly tolerance: string
}

export type Proposal = {
  /** Texts for the fields, where they follow from something. */
  readonly reference?: string
  readonly tolerance?: string
  readonly because: readonly string[]
  readonly working: readonly WorkingStep[]
}

const nothing: Proposal = { because: [], working: [] }

const numberOf = (text: string): number | undefined => {
  if (text.trim() === '') return undefined
  const read = readPlain(text)
  return read.ok ? read.value : undefined
}
const twoPlaces = (x: number): string => editable(Math.round(x * 100) / 100)

/** The place's own pressure where it is known, else its altitude; neither where nothing is known. */
function placeOf({ pressure, altitudeM }: Asked): { pressurePa: number } | { altitudeM: number } | undefined {
  const hPa = numberOf(pressure)
  if (hPa !== undefined) return { pressurePa: hPa * 100 }
  return altitudeM === undefined ? undefined : { altitudeM }
}

function boiling(asked: Asked): Proposal {
  const place = placeOf(asked)
  const input = place && boilingPointInput.safeParse(place)
  if (!input?.success) return nothing
  const { boilingC, lowC, highC, note, working } = boilingPoint(input.data)
  const band = lowC === highC ? '' : ` Weather puts it between ${twoPlaces(lowC)} and ${twoPlaces(highC)} °C.`
  return {
    reference: twoPlaces(boilingC),
    because: [`Water boils at ${twoPlaces(boilingC)} °C here.${band} ${note}`],
    working,
  }
}

function testLoad({ instrument: i, reference }: Asked): Proposal {
  const loadG = numberOf(reference)
  if (i.accuracyClass === undefined || i.divisionG === undefined)
    return {
      because: [
        i.toleranceG === undefined
          ? 'No class and interval are recorded of this scale, so no published tolerance holds for it: type the largest error this kitchen allows.'
          : `No class and interval are recorded of this scale: the largest error is the kitchen’s own, ± ${editable(i.toleranceG)} g.`,
      ],
      working: [],
    }
  if (loadG === undefined)
    return { because: ['Type the load, and the tolerance of the class at that load follows.'], working: [] }
  const input = scaleToleranceInput.safeParse({ class: i.accuracyClass, divisionG: i.divisionG, loadG })
  if (!input.success) return { because: input.error.issues.map((x) => `The load ${x.message}`), working: [] }
  const { inServiceG, toleranceG, usMaintenanceG, working } = scaleTolerance(input.data)
  const own = i.toleranceG !== undefined && i.toleranceG < inServiceG ? i.toleranceG : undefined
  return {
    tolerance: editable(own ?? inServiceG),
    because: [
      `Class ${i.accuracyClass}, e = ${editable(i.divisionG)} g: in service ± ${editable(inServiceG)} g at this load, ± ${editable(toleranceG)} g when first verified (OIML R 76-1, Table 6).${
        own === undefined ? '' : ` The kitchen’s own, ± ${editable(own)} g, is smaller and holds.`
      }${usMaintenanceG === undefined ? '' : ` United States maintenance tolerance ± ${editable(usMaintenanceG)} g: from memory, for comparison only.`}`,
    ],
    working,
  }
}

/** Reference and largest error that follow from the class of a scale and its load, or from the pressure and altitude of the place. */
export function proposal(asked: Asked): Proposal {
  if (asked.method === 'boiling-point') return boiling(asked)
  if (asked.method === 'test-load') return testLoad(asked)
  return nothing
}

export type Judged = {
  readonly verdict: Verdict
  readonly label: string
  readonly because: string
}

const labels = {
  within: { verdict: 'pass', label: 'Within' },
  outside: { verdict: 'fail', label: 'Outside' },
  'cannot-tell': { verdict: 'cannot-tell', label: 'Cannot tell' },
} as const

/**
 * What a reading at a fixed point says of a thermometer before it is recorded: its offset is known only to half a step of the display and
 * how well the point is made. Nothing until reading and tolerance are typed.
 */
export function judged(asked: Asked): Judged | undefined {
  const { instrument, method, reading, tolerance } = asked
  const point = method === 'ice-point' ? 'ice' : method === 'boiling-point' ? 'boiling' : undefined
  const [read, allowed] = [numberOf(reading), numberOf(tolerance)]
  if (point === undefined || read === undefined || allowed === undefined) return undefined
  const input = thermometerCheckInput.safeParse({
    point,
    ...(point === 'boiling' ? placeOf(asked) : {}),
    readingsC: [read],
    // The step of most kitchen probes, where nobody recorded another.
    resolutionC: instrument.resolutionC ?? 0.1,
    toleranceC: allowed,
  })
  if (!input.success) return undefined
  try {
    const { verdict, because } = thermometerCheck(input.data)
    const step = instrument.resolutionC === undefined ? ' (its step taken as 0.1 °C: none is recorded)' : ''
    return { ...labels[verdict], because: `${because}${step}.` }
  } catch (error) {
    if (error instanceof InvalidInput) return undefined
    throw error
  }
}
