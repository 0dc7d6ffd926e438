const parts = [
  { at: '', name: 'Entries' },
  { at: 'trace', name: 'Trace' },
  { at: 'recall', name: 'Recall' },
  { at: 'deviations', name: 'Deviations' },
  { at: 'charts', name: 'Control charts' },
  { at: 'hazard-plan', name: 'Hazard plan' },
] as const

/** Parts of the record, above each of them. */
export function RecordParts({ at }: { at: string }) {
  return (
    <nav class="parts" aria-label="Parts of the record">
      {parts.map((p) => (
        <a
          key={p.at}
          href={`/record${p.at && `/${p.at}`}`}
          {...(p.at === at ? { 'aria-current': 'page' as const } : {})}
        >
          {p.name}
        </a>
      ))}
    </nav>
  )
}
