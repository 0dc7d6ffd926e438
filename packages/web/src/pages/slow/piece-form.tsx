import { submit, useForm, type FactDraft } from '../../state/form.ts'
import { compact, type Reader } from '../../state/reader.ts'
import type { KitchenView } from '../../state/views.ts'
import { system } from '../../state/who.ts'
import { EntryForm, FormChoice, FormQuantity, FormText } from '../../ui/form.tsx'
import { pieceWeight } from './lines.ts'
import { readTaken, TakenFields } from './taken.tsx'

/** Three pieces are marked unless more were. */
const USUAL = ['P1', 'P2', 'P3'] as const
/** A piece is no heavier than it was stuffed, but for the scale's error, and keeps a quarter of its weight: it is not all water. */
const HEAVIER = 1.02
const LEAST_SHARE = 0.25
/** Most one piece weighs, g. */
const MOST_G = 50_000

type Start = { readonly piece: string; readonly g: number }

function readGrams(r: Reader, piece: string, start: number | undefined): number | undefined {
  const g = r.quantity(piece, 'mass', { unit: pieceUnit(), as: 'g' })
  if (g === undefined) return undefined
  if (g <= 0 || g > MOST_G) return r.fault(piece, `is ${pieceWeight(g)}; allowed: over 0 to ${pieceWeight(MOST_G)}`)
  if (start !== undefined && g > start * HEAVIER)
    return r.fault(
      piece,
      `is ${pieceWeight(g)}, but ${piece} weighed ${pieceWeight(start)} at first; allowed: no more than that`,
    )
  if (start !== undefined && g < start * LEAST_SHARE)
    return r.fault(
      piece,
      `is ${pieceWeight(g)} of ${pieceWeight(start)} at first; allowed: a piece keeps a quarter at least`,
    )
  return g
}

const pieceUnit = (): string => (system.value === 'us' ? 'oz' : 'g')

/** The marked pieces on the scale: at stuffing their first weight, later what their loss is told by. */
export function PieceForm({
  batch,
  kitchen,
  starts,
}: {
  batch: string
  kitchen: KitchenView
  starts: readonly Start[]
}) {
  const scales = kitchen.instruments.filter((i) => i.type === 'scale' && !i.retired)
  const pieces = [...new Set([...starts.map((s) => s.piece), ...USUAL])].slice(0, Math.max(3, starts.length))
  const form = useForm(`pieces-${batch}`, { instrument: '', day: '', time: '' })
  const { instrument = '' } = form.values.value
  const first = starts.length === 0
  const send = (): Promise<void> =>
    submit(form, {
      read: (r): FactDraft[] => {
        const other = r.text('other')
        if (other !== undefined && !/^[A-Za-z0-9][A-Za-z0-9.-]{0,59}$/.test(other))
          r.fault('other', `is ${JSON.stringify(other)}; allowed: letters, digits, dots and dashes, such as P4`)
        const weighed = [
          ...pieces.map((piece) => ({
            piece,
            g: readGrams(r, piece, starts.find((s) => s.piece === piece)?.g),
          })),
          ...(other === undefined
            ? []
            : [{ piece: other, g: r.quantity('otherG', 'mass', { unit: pieceUnit(), as: 'g', required: true }) }]),
        ].filter((w): w is { piece: string; g: number } => w.g !== undefined)
        if (weighed.length === 0 && r.faults.length === 0)
          r.fault(pieces[0]!, `is empty, and so are the others; allowed: the weight of one piece at least`)
        const taken = readTaken(r)
        return weighed.map(({ piece, g }) => ({
          kind: 'batch.measure',
          body: {
            batch,
            step: starts.some((s) => s.piece === piece) ? 'dry' : 'stuff',
            what: 'weight',
            unit: 'g',
            piece,
            value: g,
            taken,
            ...compact({ instrument: instrument || undefined, note: r.text('note') }),
          },
        }))
      },
      done: (entries) => `Recorded ${entries.length} ${entries.length === 1 ? 'weight' : 'weights'}.`,
      clear: { instrument, day: '', time: '' },
      fieldFor: { taken: 'time', value: pieces[0]! },
    })
  return (
    <EntryForm
      form={form}
      fields={[...pieces, 'other', 'otherG', 'instrument', 'day', 'time', 'note']}
      label="Weigh the marked pieces"
      action={first ? 'Record the first weights' : 'Record the weights'}
      onSubmit={() => void send()}
    >
      {first && (
        <p class="hint">
          Mark three pieces and weigh them at stuffing: their loss counts from there, and the date is told by it.
        </p>
      )}
      <div class="stage-row">
        {pieces.map((piece) => {
          const start = starts.find((s) => s.piece === piece)
          return (
            <FormQuantity
              key={piece}
              form={form}
              name={piece}
              kind="mass"
              unit={pieceUnit()}
              label={`Piece ${piece}`}
              hint={start ? `${pieceWeight(start.g)} at first` : 'first weight'}
            />
          )
        })}
        <FormChoice
          form={form}
          name="instrument"
          label="Scale"
          options={[{ value: '', label: 'not named' }, ...scales.map((s) => ({ value: s.instrument, label: s.name }))]}
        />
        <TakenFields form={form} />
      </div>
      <details>
        <summary>Another piece, or a note</summary>
        <div class="stage-row">
          <FormText form={form} name="other" label="Another piece" placeholder="P4" />
          <FormQuantity form={form} name="otherG" kind="mass" unit={pieceUnit()} label="Its weight" />
          <FormText form={form} name="note" label="Note" />
        </div>
      </details>
    </EntryForm>
  )
}
