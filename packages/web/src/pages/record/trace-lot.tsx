import { useResource } from '../../state/resource.ts'
import type { LotTrace } from '../../state/views.ts'
import { day, mass } from '../../ui/figures.ts'
import { materialName } from '../../ui/material-field.tsx'
import { Shown } from '../../ui/notes.tsx'
import { Sheet } from '../../ui/sheet.tsx'
import { stateName } from '../../ui/words.ts'
import { TraceDrawing } from './trace-drawing.tsx'

/** From a lot forward: the batches it went into, their packs, and who has them. */
export function TraceLot({ lot }: { lot: string }) {
  const trace = useResource<LotTrace>(`/api/trace/lot/${encodeURIComponent(lot)}`)
  return (
    <>
      <p>
        <a href="/record/trace">Another trace</a>
      </p>
      <div class="head-line">
        {trace.value.error && !trace.value.value ? (
          <h1>No such lot</h1>
        ) : (
          <>
            <h1>Lot {lot}, forward</h1>
            <a class="button" href={`/record/recall/lot/${encodeURIComponent(lot)}`}>
              Recall it, through rework
            </a>
          </>
        )}
      </div>
      <Shown of={trace.value} what="the trace">
        {(t) => (
          <>
            <dl class="facts">
              <dt>Lot</dt>
              <dd>
                <a href={`/stock/${encodeURIComponent(lot)}`}>{lot}</a>, {materialName(t.lot.material)}, from{' '}
                {t.lot.supplier ?? 'a supplier nobody named'}, in on {day(t.lot.on)}
              </dd>
              <dt>Accounted for</dt>
              <dd>
                {mass(t.kg.received)} in; {mass(t.kg.used)} into batches; {mass(t.kg.adjusted)} adjusted;{' '}
                {mass(t.kg.left)} left
              </dd>
              <dt>Customers</dt>
              <dd>{t.customers.length ? t.customers.join(', ') : 'none: nothing made of it has left'}</dd>
            </dl>
            {t.batches.length === 0 ? (
              <p class="empty">Nothing was made of this lot yet.</p>
            ) : (
              <>
                <Drawing trace={t} />
                <Rows trace={t} />
              </>
            )}
          </>
        )}
      </Shown>
    </>
  )
}

function Drawing({ trace: t }: { trace: LotTrace }) {
  const customers = t.customers
  return (
    <TraceDrawing
      title={`Lot ${t.lot.lot} to customers`}
      columns={[
        { head: 'Lot', knots: [{ id: 'lot', label: t.lot.lot, under: mass(t.kg.received) }] },
        {
          head: 'Batches',
          knots: t.batches.map((b) => ({ id: `b:${b.batch}`, label: b.batch, under: `${mass(b.kgOfLot)} of it` })),
        },
        {
          head: 'Packs',
          knots: t.packs.map((p) => ({
            id: `p:${p.pack}`,
            label: p.pack,
            under: `${p.count} packs, ${p.hereCount} here`,
          })),
        },
        { head: 'Customers', knots: customers.map((c) => ({ id: `c:${c}`, label: c })) },
      ]}
      threads={[
        ...t.batches.map((b) => ({ from: 'lot', to: `b:${b.batch}` })),
        ...t.packs.map((p) => ({ from: `b:${p.batch}`, to: `p:${p.pack}` })),
        ...t.packs.flatMap((p) =>
          [...new Set(p.shipments.map((s) => s.to))].map((c) => ({ from: `p:${p.pack}`, to: `c:${c}` })),
        ),
      ]}
    />
  )
}

function Rows({ trace: t }: { trace: LotTrace }) {
  const rows = t.batches.flatMap((b) => {
    const base = { batch: b.batch, state: b.state, name: b.recipeName, kgOfLot: b.kgOfLot }
    if (b.packs.length === 0) return [{ ...base, pack: '', count: 0, to: '', on: '' }]
    return b.packs.flatMap((p) =>
      p.shipments.length === 0
        ? [{ ...base, pack: p.pack, count: p.hereCount, to: 'here', on: p.on }]
        : [
            ...p.shipments.map((s) => ({ ...base, pack: p.pack, count: s.count, to: s.to, on: s.on })),
            ...(p.hereCount > 0 ? [{ ...base, pack: p.pack, count: p.hereCount, to: 'here', on: p.on }] : []),
          ],
    )
  })
  return (
    <Sheet
      caption={`Where lot ${t.lot.lot} went`}
      rows={rows}
      rowKey={(r) => `${r.batch} ${r.pack} ${r.to} ${r.on} ${r.count}`}
      columns={[
        {
          head: 'Batch',
          keep: true,
          names: true,
          cell: (r) => <a href={`/batches/${encodeURIComponent(r.batch)}`}>{r.batch}</a>,
        },
        { head: 'Made', cell: (r) => `${r.name}, ${stateName(r.state)}` },
        { head: 'Of this lot', num: true, cell: (r) => mass(r.kgOfLot) },
        {
          head: 'Pack',
          cell: (r) =>
            r.pack ? <a href={`/record/trace/pack/${encodeURIComponent(r.pack)}`}>{r.pack}</a> : 'not packed',
        },
        { head: 'Packs', num: true, cell: (r) => (r.count ? r.count : '') },
        { head: 'Where', cell: (r) => r.to },
        { head: 'On', keep: true, cell: (r) => (r.on ? day(r.on) : '') },
      ]}
    />
  )
}
