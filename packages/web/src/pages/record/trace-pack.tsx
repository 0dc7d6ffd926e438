import { useResource } from '../../state/resource.ts'
import type { PackTrace } from '../../state/views.ts'
import { day, mass } from '../../ui/figures.ts'
import { materialName } from '../../ui/material-field.tsx'
import { Shown } from '../../ui/notes.tsx'
import { Photos } from '../../ui/photos.tsx'
import { PrintRecord } from '../../ui/print-record.tsx'
import { Sheet } from '../../ui/sheet.tsx'
import { stateName } from '../../ui/words.ts'
import { TraceDrawing } from './trace-drawing.tsx'

/** From a pack back: its batch, the lots in it, and who sold them. */
export function TracePack({ pack }: { pack: string }) {
  const trace = useResource<PackTrace>(`/api/trace/pack/${encodeURIComponent(pack)}`)
  return (
    <>
      <p>
        <a href="/record/trace">Another trace</a>
      </p>
      <div class="head-line">
        <h1>Pack {pack}, back</h1>
        <div class="row">
          <a class="button" href={`/record/recall/pack/${encodeURIComponent(pack)}`}>
            Recall it
          </a>
          <PrintRecord of="pack" id={pack} />
        </div>
      </div>
      <Shown of={trace.value} what="the trace">
        {(t) => (
          <>
            <dl class="facts">
              <dt>Pack</dt>
              <dd>
                {t.pack.count} packs, {mass(t.pack.totalKg)}, packed on {day(t.pack.on)}; {t.pack.hereCount} still here
              </dd>
              <dt>Batch</dt>
              <dd>
                <a href={`/batches/${encodeURIComponent(t.batch.batch)}`}>{t.batch.batch}</a>, {t.batch.recipeName},{' '}
                {stateName(t.batch.state)}
              </dd>
              <dt>Suppliers</dt>
              <dd>{t.suppliers.length ? t.suppliers.join(', ') : 'none named'}</dd>
            </dl>
            {t.withoutLot.length > 0 && (
              <p class="fault">
                The trace cannot follow what was weighed in without a lot:{' '}
                {t.withoutLot.map((l) => `${materialName(l.material)} (${mass(l.kg)})`).join(', ')}.
              </p>
            )}
            <TraceDrawing
              title={`Lots in pack ${pack}`}
              columns={[
                {
                  head: 'Lots',
                  knots: t.lots.map((l) => ({
                    id: `l:${l.lot}`,
                    label: l.lot,
                    under: `${materialName(l.material)}, ${mass(l.kgInBatch)}`,
                  })),
                },
                { head: 'Batch', knots: [{ id: 'b', label: t.batch.batch, under: t.batch.recipeName }] },
                { head: 'Pack', knots: [{ id: 'p', label: t.pack.pack, under: `${t.pack.count} packs` }] },
              ]}
              threads={[...t.lots.map((l) => ({ from: `l:${l.lot}`, to: 'b' })), { from: 'b', to: 'p' }]}
            />
            <Sheet
              caption={`Lots in pack ${pack}`}
              rows={t.lots}
              rowKey={(l) => l.lot}
              columns={[
                {
                  head: 'Lot',
                  keep: true,
                  names: true,
                  cell: (l) => <a href={`/record/trace/lot/${encodeURIComponent(l.lot)}`}>{l.lot}</a>,
                },
                { head: 'Material', cell: (l) => materialName(l.material) },
                { head: 'In this batch', num: true, cell: (l) => mass(l.kgInBatch) },
                { head: 'Supplier', cell: (l) => l.supplier ?? '–' },
                { head: "Supplier's lot", cell: (l) => l.supplierLot ?? '–' },
                { head: 'In on', keep: true, cell: (l) => day(l.on) },
              ]}
            />
            <Photos of="pack" id={pack} />
          </>
        )}
      </Shown>
    </>
  )
}
