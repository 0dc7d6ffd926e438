import { useResource } from '../../state/resource.ts'
import type { LotView, Movement } from '../../state/views.ts'
import { day, mass, pricePerMass, temperature } from '../../ui/figures.ts'
import { materialName } from '../../ui/material-field.tsx'
import { Shown } from '../../ui/notes.tsx'
import { Photos } from '../../ui/photos.tsx'
import { PrintRecord } from '../../ui/print-record.tsx'
import { Sheet } from '../../ui/sheet.tsx'
import { factName } from '../../ui/words.ts'
import { AdjustLot } from './adjust.tsx'
import { ColdEnough } from './cold-enough.tsx'
import { HandleLot } from './handle.tsx'
import { MadeSafe, type Treatment } from './made-safe.tsx'
import { fatWords } from './stock.tsx'

/** One lot: as it came in, what moved, and a count or waste to record. */
export function OneLot({ lot }: { lot: string }) {
  const found = useResource<
    LotView & { readonly movements: readonly Movement[]; readonly treatments: readonly Treatment[] }
  >(`/api/lots/${encodeURIComponent(lot)}`)
  return (
    <>
      <p>
        <a href="/stock">All lots</a>
      </p>
      <Shown of={found.value} what="the lot">
        {(l) => (
          <>
            <div class="head-line">
              <h1>Lot {l.lot}</h1>
              <div class="row">
                <a class="button" href={`/record/trace/lot/${encodeURIComponent(l.lot)}`}>
                  Trace it forward
                </a>
                <PrintRecord of="lot" id={l.lot} />
              </div>
            </div>
            <p class="figure-line">
              {materialName(l.material)}: <strong>{mass(l.balanceKg)}</strong> left of {mass(l.kg)}
            </p>
            <div class="two">
              <div>
                <h2 class="first">Movements</h2>
                <Sheet
                  caption={`Movements of lot ${l.lot}`}
                  rows={l.movements}
                  rowKey={(m) => m.seq}
                  columns={[
                    { head: 'On', keep: true, cell: (m) => day(m.on ?? m.at) },
                    { head: 'What', names: true, cell: (m) => <What movement={m} /> },
                    { head: 'In or out', num: true, cell: (m) => mass(m.kg) },
                    { head: 'Left', num: true, cell: (m) => mass(m.balanceKg) },
                  ]}
                />
                <MadeSafe lot={l} />
                <HandleLot lot={l} />
                <AdjustLot lot={l.lot} />
                <Photos of="lot" id={l.lot} />
              </div>
              <Facts lot={l} />
            </div>
          </>
        )}
      </Shown>
    </>
  )
}

function What({ movement: m }: { movement: Movement }) {
  return (
    <>
      <a href={`/record/${m.seq}`}>{factName(m.kind)}</a>
      {m.batch && (
        <>
          {' '}
          into <a href={`/batches/${encodeURIComponent(m.batch)}`}>{m.batch}</a>
        </>
      )}
      {m.reason && `: ${m.reason}`}
      {m.into && m.from && ` ${m.kg < 0 ? `into ${m.into}` : `off ${m.from}`}`}
      {m.from && !m.into && ` out of ${m.from}`}
      {m.note && <span class="quiet"> ({m.note})</span>}
    </>
  )
}

function Facts({ lot: l }: { lot: LotView }) {
  return (
    <div>
      <h2 class="first">As it came in</h2>
      <dl class="facts">
        <dt>Supplier</dt>
        <dd>
          {l.supplier ?? '–'}
          {l.supplierLot && `, lot ${l.supplierLot}`}
        </dd>
        {l.origin && (
          <>
            <dt>Came from</dt>
            <dd>
              {'lot' in l.origin ? (
                <>
                  part of lot <a href={`/stock/${encodeURIComponent(l.origin.lot)}`}>{l.origin.lot}</a>
                </>
              ) : (
                <>
                  rework of batch <a href={`/batches/${encodeURIComponent(l.origin.batch)}`}>{l.origin.batch}</a>,
                  allergens: {l.origin.allergens ? l.origin.allergens.join(', ') || 'none' : 'not recorded'}
                </>
              )}
            </dd>
          </>
        )}
        <dt>Came in on</dt>
        <dd>{day(l.on)}</dd>
        <dt>Use by</dt>
        <dd>{day(l.useBy)}</dd>
        <dt>Arrived at</dt>
        <dd>{temperature(l.arrivalC)}</dd>
        <dt>Fat</dt>
        <dd>
          {fatWords(l)} {l.fatBasis && <span class="quiet">{l.fatBasis}</span>}
        </dd>
        <dt>Price</dt>
        <dd>{pricePerMass(l.costPerKg)}</dd>
        <dt>Kept in</dt>
        <dd>{l.place ?? '–'}</dd>
        {l.arrival && (
          <>
            <dt>On arrival</dt>
            <dd>
              {Object.entries(l.arrival)
                .map(([what, seen]) => `${what} ${seen}`)
                .join(', ')}
            </dd>
          </>
        )}
        {l.bought && (
          <>
            <dt>As bought</dt>
            <dd>
              {l.bought.count} {l.bought.unit}
            </dd>
          </>
        )}
        {l.documents?.map((d) => (
          <>
            <dt>{d.kind}</dt>
            <dd>{d.reference}</dd>
          </>
        ))}
        {l.note && (
          <>
            <dt>Note</dt>
            <dd>{l.note}</dd>
          </>
        )}
      </dl>
      {!(l.origin && 'batch' in l.origin) && (
        <ColdEnough
          lot={l.lot}
          material={l.material}
          on={l.on}
          arrivalC={l.arrivalC}
          instrument={l.arrival?.['instrument'] ?? ''}
        />
      )}
      <a class="button" href={`/record/${l.seq}/correct`}>
        Correct how it came in
      </a>
    </div>
  )
}
