import { signal } from '@preact/signals'
import { useMemo } from 'preact/hooks'
import type { PageProps } from '../../app.tsx'
import { useResource } from '../../state/resource.ts'
import type { LotView } from '../../state/views.ts'
import { day, mass, percent, pricePerMass, today } from '../../ui/figures.ts'
import { LongList } from '../../ui/long-list.tsx'
import { materialName } from '../../ui/material-field.tsx'
import { Shown } from '../../ui/notes.tsx'
import { Sheet } from '../../ui/sheet.tsx'
import { Businesses } from './businesses.tsx'
import { FromFile } from './from-file.tsx'
import { OneLot } from './one-lot.tsx'
import { StockParts, stockParts } from './parts.tsx'
import { TakeRework } from './rework.tsx'
import { ReceiveLot } from './receive.tsx'

/** Lots with what is left of them. */
export function Stock(props: PageProps) {
  const [first = ''] = props.path
  return (
    <>
      {stockParts.has(first) && <StockParts at={first} />}
      <Part {...props} />
    </>
  )
}

function Part({ path, kitchen }: PageProps) {
  const [first] = path
  if (first === 'receive') return <ReceiveLot instruments={kitchen.instruments} />
  if (first === 'rework') return <TakeRework />
  if (first === 'businesses') return <Businesses />
  if (first === 'import') return <FromFile />
  if (first) return <OneLot key={first} lot={first} />
  return <Lots />
}

/** The lot whose date comes first on top; those without a date after them. */
const firstExpiring = (lots: readonly LotView[]): readonly LotView[] =>
  lots.toSorted((a, b) => (a.useBy ?? '9999').localeCompare(b.useBy ?? '9999') || a.on.localeCompare(b.on))

function Lots() {
  const all = useMemo(() => signal(false), [])
  const lots = useResource<{ lots: readonly LotView[] }>(`/api/lots?limit=1000&left=${all.value ? 0 : 1}`)
  return (
    <>
      <div class="head-line">
        <h1>Stock</h1>
        <a class="button main" href="/stock/receive">
          Receive a lot
        </a>
      </div>
      <label class="tick">
        <input type="checkbox" checked={all.value} onInput={(e) => (all.value = e.currentTarget.checked)} />
        Show lots that are used up
      </label>
      <Shown of={lots.value} what="the stock">
        {({ lots: rows }) => (
          <LongList
            items={firstExpiring(rows)}
            what="lots"
            most={1000}
            text={(l) =>
              `${l.lot} ${l.material} ${materialName(l.material)} ${l.supplier ?? ''} ${l.supplierLot ?? ''}`
            }
            empty={
              <>
                <p>Nothing is in stock.</p>
                <p>Receive the first lot: what came in, from whom, how much, how lean and how cold.</p>
              </>
            }
          >
            {(shown) => (
              <Sheet
                caption="Lots in stock"
                rows={shown}
                rowKey={(l) => l.lot}
                columns={[
                  {
                    head: 'Lot',
                    keep: true,
                    names: true,
                    cell: (l) => <a href={`/stock/${encodeURIComponent(l.lot)}`}>{l.lot}</a>,
                  },
                  { head: 'Material', cell: (l) => materialName(l.material) },
                  {
                    head: 'Use by',
                    keep: true,
                    cell: (l) => (
                      <span class={l.useBy && l.useBy < today() ? 'late' : undefined}>
                        {l.useBy ? day(l.useBy) : '–'}
                      </span>
                    ),
                  },
                  { head: 'Left', num: true, cell: (l) => mass(l.balanceKg) },
                  { head: 'Fat', num: true, cell: (l) => fatWords(l) },
                  { head: 'Price', num: true, cell: (l) => pricePerMass(l.costPerKg) },
                  { head: 'Supplier', cell: (l) => l.supplier ?? '–' },
                ]}
              />
            )}
          </LongList>
        )}
      </Shown>
    </>
  )
}

/** Fat as analysed with its spread, else the lean as sold. */
export const fatWords = (l: Pick<LotView, 'fatPct' | 'fatSdPct' | 'leanAsSoldPct'>): string => {
  if (l.fatPct !== undefined)
    return l.fatSdPct === undefined ? percent(l.fatPct) : `${percent(l.fatPct)} ± ${percent(l.fatSdPct, 2)}`
  return l.leanAsSoldPct === undefined ? '–' : `${percent(l.leanAsSoldPct)} lean as sold`
}
