import { boilingPoint } from '@forcemeat/craft/instrument/boiling-point'

export type CheckedInstrument = {
  readonly type: 'scale' | 'thermometer' | 'logger' | 'ph-meter' | 'aw-meter' | 'hygrometer' | 'clock'
  /** Largest error the kitchen allows it, ±, at the load in use. */
  readonly toleranceG?: number | undefined
  readonly toleranceC?: number | undefined
  readonly capacityG?: number | undefined
}

export type CheckReading = {
  readonly method: 'ice-point' | 'boiling-point' | 'test-load' | 'buffer' | 'salt-standard' | 'comparison'
  readonly reference: number
  readonly reading: number
  readonly unit: '°C' | 'g' | 'pH' | 'aw' | '% RH' | 's'
  readonly tolerance: number
}

/** What a check shows of its instrument. */
export type CheckStanding = {
  /** Reading less reference, in the unit of the check. */
  readonly error: number
  /** The error that counts, ±: the smaller of the one typed and the instrument's own. */
  readonly allowed: number
  /** Whether it shows the instrument to be good; never so where it proves nothing. */
  readonly withinTolerance: boolean
  /** Why it says nothing of the instrument, which stands as if it had not been made. */
  readonly provesNothing?: string
  /** The method or the unit cannot be that of such an instrument. */
  readonly impossible?: 'method' | 'unit'
}

const fits: {
  readonly [type in CheckedInstrument['type']]: {
    readonly called: string
    readonly unit: CheckReading['unit']
    readonly methods: readonly CheckReading['method'][]
  }
} = {
  thermometer: { called: 'thermometer', unit: '°C', methods: ['ice-point', 'boiling-point', 'comparison'] },
  logger: { called: 'temperature logger', unit: '°C', methods: ['ice-point', 'boiling-point', 'comparison'] },
  scale: { called: 'scale', unit: 'g', methods: ['test-load', 'comparison'] },
  'ph-meter': { called: 'pH meter', unit: 'pH', methods: ['buffer'] },
  'aw-meter': { called: 'water activity meter', unit: 'aw', methods: ['salt-standard'] },
  hygrometer: { called: 'hygrometer', unit: '% RH', methods: ['salt-standard', 'comparison'] },
  clock: { called: 'clock', unit: 's', methods: ['comparison'] },
}

/** Water boils at what the altitude says, give or take the weather. Common practice, no source. */
const boilingSpreadC = 1
/** A load below this share of the capacity says nothing of a scale where it is used. Common practice, no source. */
const leastLoadPct = 2
/** Where an instrument has no tolerance of its own, a wider one than this would pass anything. Common practice, no source. */
const widest: Readonly<Record<Exclude<CheckReading['unit'], 'g'>, number>> = {
  '°C': 2,
  pH: 0.3,
  aw: 0.03,
  '% RH': 10,
  s: 600,
}
const widestLoadPct = 5

/** Whole units of the last place a check is given in, so that 0.3 − 0.1 is not held against a tolerance of 0.2. */
const rounded = (x: number): number => Number(x.toFixed(9))

const ownOf = ({ toleranceC, toleranceG }: CheckedInstrument, unit: CheckReading['unit']): number | undefined =>
  unit === '°C' ? toleranceC : unit === 'g' ? toleranceG : undefined

/** What is wrong with the reference of a check, where its method fits: nothing of the instrument follows from it. */
function wrongReference(
  instrument: CheckedInstrument,
  { method, reference, unit }: CheckReading,
  altitudeM: number | undefined,
): string | undefined {
  if (method === 'ice-point' && reference !== 0) return `an ice point is 0 °C, and ${reference} °C was taken for it`
  if (method === 'boiling-point') {
    if (altitudeM === undefined)
      return 'the altitude of the kitchen is not recorded, so what water boils at there is not known'
    const { boilingC } = boilingPoint({ altitudeM })
    if (Math.abs(reference - boilingC) > boilingSpreadC)
      return `water boils at ${boilingC.toFixed(1)} °C at ${altitudeM} m, give or take ${boilingSpreadC} °C, and ${reference} °C was taken for it`
  }
  const { capacityG } = instrument
  if (unit === 'g' && reference <= 0) return `a load of ${reference} g is none`
  if (unit === 'g' && capacityG !== undefined && reference < (capacityG * leastLoadPct) / 100)
    return `a load of ${reference} g is less than ${leastLoadPct} % of the ${capacityG} g the scale carries`
  if (unit === 'pH' && (reference < 1 || reference > 13)) return `no buffer has a pH of ${reference}`
  if (unit === 'aw' && (reference <= 0 || reference > 1)) return `no standard has a water activity of ${reference}`
  if (unit === '% RH' && (reference <= 0 || reference > 100)) return `no standard has ${reference} % RH`
  return undefined
}

/** What is wrong with the error typed as allowed, where the instrument has none of its own. */
function tooWide({ unit, reference }: CheckReading, allowed: number): string | undefined {
  const most = unit === 'g' ? (Math.abs(reference) * widestLoadPct) / 100 : widest[unit]
  return allowed > most + 1e-9
    ? `an error of ± ${allowed} ${unit} was allowed, and more than ± ${rounded(most)} ${unit} would pass anything`
    : undefined
}

/**
 * What a check shows of its instrument: good, out of tolerance, or nothing. The smaller tolerance counts; the reference must be one that
 * the method has; the method and unit must be those of the instrument. A reading that is off stays off, however it was taken.
 *
 * @param altitudeM of the kitchen; without it no boiling point proves anything
 */
export function standingOfCheck(
  instrument: CheckedInstrument,
  check: CheckReading,
  altitudeM: number | undefined,
): CheckStanding {
  const { method, unit } = check
  const own = ownOf(instrument, unit)
  const allowed = own === undefined ? check.tolerance : Math.min(own, check.tolerance)
  const error = rounded(check.reading - check.reference)
  const { called, unit: right, methods } = fits[instrument.type]
  const of = { error, allowed, withinTolerance: false }
  if (!methods.includes(method))
    return {
      ...of,
      provesNothing: `a ${called} is not checked by ${method.replace('-', ' ')}, but by ${methods.join(', ').replaceAll('-', ' ')}`,
      impossible: 'method',
    }
  if (unit !== right)
    return { ...of, provesNothing: `a ${called} is checked in ${right}, not in ${unit}`, impossible: 'unit' }
  if (Math.abs(error) > allowed) return of
  const nothing =
    wrongReference(instrument, check, altitudeM) ?? (own === undefined ? tooWide(check, allowed) : undefined)
  return nothing === undefined ? { ...of, withinTolerance: true } : { ...of, provesNothing: nothing }
}
