import type { Worked } from '../../state/recipe-bench.ts'
import { number, percent, pricePerMass } from '../../ui/figures.ts'
import { VerdictMark } from '../../ui/verdict.tsx'

/** The figures a maker looks at while typing, always in sight. */
export function Strip({ worked, stale }: { worked: Worked | undefined; stale: boolean }) {
  if (!worked) return <p class="strip quiet">Figures show here as soon as the meat block adds up to 100 %.</p>
  const { computed: c, places } = worked
  return (
    <div class={stale ? 'strip strip-stale' : 'strip'} role="status" aria-label="Figures of the recipe">
      {stale && <strong class="late">Not up to date: a field cannot be read.</strong>}
      <span>
        fat <strong>{percent(c.composition.fatPct)}</strong>
      </span>
      <span>
        salt <strong>{percent(c.cure.addedSaltPctOfTotal)}</strong>
      </span>
      <span>
        nitrite in <strong>{c.cure.known ? `${number(c.cure.nitritePpm, 4)} ppm` : 'not known'}</strong>
      </span>
      <span>
        cost <strong>{c.cost.perKgRaw === undefined ? 'not known' : pricePerMass(c.cost.perKgRaw)}</strong>
      </span>
      {places.map((p) => (
        <span key={p.jurisdiction}>
          {p.jurisdiction} <VerdictMark verdict={p.verdict} />
        </span>
      ))}
    </div>
  )
}
