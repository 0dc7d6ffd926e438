import type { Finding } from '@forcemeat/craft/finding'
import { readQuantity } from '../../state/reader.ts'
import { useResource } from '../../state/resource.ts'
import { Findings } from '../../ui/verdict.tsx'

type Props = {
  readonly material: string
  readonly on: string
  readonly instrument: string
  /** The lot, once it has a code. */
  readonly lot?: string
  readonly arrivalC?: number | undefined
  /** The temperature as it stands in a form, in the units of this screen. */
  readonly typed?: string
}

const read = (typed: string | undefined): number | undefined => {
  if (typed === undefined || typed.trim() === '') return undefined
  const found = readQuantity(typed, 'temperature', undefined, true)
  return found.ok ? found.value : undefined
}

/** Whether meat came in cold enough, by the law of the places it is sold in and by the kitchen's own limit; nothing for what is no meat. */
export function ColdEnough({ material, on, instrument, lot, arrivalC, typed }: Props) {
  const c = arrivalC ?? read(typed)
  const query = new URLSearchParams({ material, on })
  if (c !== undefined) query.set('arrivalC', String(Number(c.toFixed(4))))
  if (instrument) query.set('instrument', instrument)
  const found = useResource<{ findings: readonly Finding[] }>(
    /^\d{4}-\d{2}-\d{2}$/.test(on) ? `/api/arrival?${query.toString()}` : undefined,
  ).value.value
  if (!found || found.findings.length === 0) return null
  return (
    <section aria-label="Cold enough on arrival">
      <h3>Cold enough on arrival</h3>
      <Findings findings={found.findings} />
      {found.findings.some((f) => f.verdict === 'fail') && (
        <p class="late">
          Meat that came in too warm: keep it apart, and send it back or open a{' '}
          <a
            href={`/record/deviations/new${lot === undefined ? '' : `?type=lot&id=${encodeURIComponent(lot)}&what=came+in+too+warm`}`}
          >
            deviation
          </a>{' '}
          that says what was done with it.
        </p>
      )}
    </section>
  )
}
