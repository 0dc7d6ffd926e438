import type { RecallView } from '../../state/views.ts'
import { day, mass } from '../../ui/figures.ts'
import { materialName } from '../../ui/material-field.tsx'
import { Sheet } from '../../ui/sheet.tsx'
import { stateName } from '../../ui/words.ts'
import { TraceDrawing } from './trace-drawing.tsx'

/** Who has it, the batches with their mass balance, the lots; and the way from one to the next as a drawing. */
export function RecallTables({ recall: r }: { recall: RecallView }) {
  return (
    <>
      <h2>Who has it</h2>
      {r.customers.length === 0 ? (
        <p class="quiet">Nothing made of it has left.</p>
      ) : (
        <Sheet
          caption="Customers who have it"
          rows={r.customers}
          rowKey={(c) => c.name}
          columns={[
            { head: 'Customer', names: true, cell: (c) => c.name },
            { head: 'Address', cell: (c) => c.customer?.address ?? <span class="late">not recorded</span> },
            { head: 'Contact', cell: (c) => c.customer?.contact ?? <span class="late">not recorded</span> },
            { head: 'Packs', num: true, cell: (c) => c.count },
            { head: 'Weight', num: true, cell: (c) => mass(c.kg) },
          ]}
        />
      )}
      {r.steps.length > 0 && <Way recall={r} />}
      <h2>Batches, and where their weight went</h2>
      <Sheet
        caption="Mass balance of each batch"
        rows={r.batches}
        rowKey={(b) => b.batch}
        columns={[
          {
            head: 'Batch',
            names: true,
            keep: true,
            cell: (b) => <a href={`/batches/${encodeURIComponent(b.batch)}`}>{b.batch}</a>,
          },
          { head: 'Made', cell: (b) => `${b.recipeName}, ${day(b.on)}, ${stateName(b.state)}` },
          { head: 'Weighed in', num: true, cell: (b) => mass(b.balance.inKg) },
          { head: 'Packed', num: true, cell: (b) => mass(b.balance.packedKg) },
          { head: 'Rework', num: true, cell: (b) => mass(b.balance.reworkKg) },
          { head: 'Difference', num: true, cell: (b) => mass(b.balance.differenceKg) },
          {
            head: 'Made and not packed, at most',
            num: true,
            cell: (b) => mass(Math.max(0, b.balance.differenceKg)),
          },
          { head: 'Shipped', num: true, cell: (b) => mass(b.balance.shippedKg) },
        ]}
      />
      <p class="hint">
        Difference: weighed in, less packed and rework. Loss in smoking, cooking and drying, trim and error are in it.
        What is held or waits unpacked is in it too: at most so much is made and not packed, before losses. Look for it
        in the house.
      </p>
      {r.consignments.length > 0 && (
        <>
          <h2>Consignments</h2>
          <Sheet
            caption="Consignments that left"
            rows={r.consignments}
            rowKey={(c) => c.seq}
            columns={[
              { head: 'On', keep: true, cell: (c) => <a href={`/record/${c.seq}`}>{day(c.on)}</a> },
              { head: 'Pack', names: true, keep: true, cell: (c) => c.pack },
              { head: 'To', cell: (c) => c.to },
              { head: 'Packs', num: true, cell: (c) => c.count },
              { head: 'Weight', num: true, cell: (c) => mass(c.kg) },
            ]}
          />
        </>
      )}
      {r.lots.length > 0 && (
        <>
          <h2>Lots affected</h2>
          <Sheet
            caption="Lots affected"
            rows={r.lots}
            rowKey={(l) => l.lot}
            columns={[
              {
                head: 'Lot',
                names: true,
                keep: true,
                cell: (l) => <a href={`/stock/${encodeURIComponent(l.lot)}`}>{l.lot}</a>,
              },
              { head: 'Material', cell: (l) => materialName(l.material) },
              { head: 'Left', num: true, cell: (l) => mass(l.balanceKg) },
              { head: 'Kept in', cell: (l) => l.place ?? '–' },
            ]}
          />
        </>
      )}
    </>
  )
}

const most = 40

function Way({ recall: r }: { recall: RecallView }) {
  const level = (type: 'lot' | 'batch', id: string): number =>
    (type === 'lot' ? r.level.lots[id] : r.level.batches[id]) ?? 0
  const things = [
    ...r.lots.map((l) => ({
      id: `lot:${l.lot}`,
      label: l.lot,
      under: materialName(l.material),
      at: level('lot', l.lot),
    })),
    ...r.batches.map((b) => ({
      id: `batch:${b.batch}`,
      label: b.batch,
      under: b.recipeName,
      at: level('batch', b.batch),
    })),
  ]
  if (things.length > most)
    return (
      <p class="quiet">{things.length} lots and batches are affected: too many to draw. The tables have them all.</p>
    )
  const levels = [...new Set(things.map((t) => t.at))].sort((a, b) => a - b)
  return (
    <TraceDrawing
      title={`From ${r.subject.type} ${r.subject.id} on`}
      columns={levels.map((at) => ({
        head: at === 0 ? 'Begins with' : `Step ${at}`,
        knots: things.filter((t) => t.at === at),
      }))}
      threads={r.steps.map((s) => ({ from: `${s.from.type}:${s.from.id}`, to: `${s.to.type}:${s.to.id}` }))}
    />
  )
}
