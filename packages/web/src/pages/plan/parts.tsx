const parts = [
  { at: '', name: 'The days to come' },
  { at: 'orders', name: 'Orders' },
  { at: 'rooms', name: 'Rooms' },
  { at: 'prices', name: 'Prices' },
  { at: 'resources', name: 'Resources' },
] as const

/** Parts of the plan, above each of them. */
export function PlanParts({ at }: { at: string }) {
  return (
    <nav class="parts" aria-label="Parts of the plan">
      {parts.map((p) => (
        <a key={p.at} href={`/plan${p.at && `/${p.at}`}`} {...(p.at === at ? { 'aria-current': 'page' as const } : {})}>
          {p.name}
        </a>
      ))}
    </nav>
  )
}
