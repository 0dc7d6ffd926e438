const parts = [
  { at: '', name: 'Lots' },
  { at: 'receive', name: 'Receive' },
  { at: 'rework', name: 'Rework' },
  { at: 'businesses', name: 'Businesses' },
  { at: 'import', name: 'From a file' },
] as const

/** Parts of the stock, above each of them. */
export function StockParts({ at }: { at: string }) {
  return (
    <nav class="parts" aria-label="Parts of the stock">
      {parts.map((p) => (
        <a
          key={p.at}
          href={`/stock${p.at && `/${p.at}`}`}
          {...(p.at === at ? { 'aria-current': 'page' as const } : {})}
        >
          {p.name}
        </a>
      ))}
    </nav>
  )
}

export const stockParts: ReadonlySet<string> = new Set(parts.map((p) => p.at))
