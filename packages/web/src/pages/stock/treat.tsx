import { paperKinds } from '@forcemeat/rulebook/pork/papers'
import { signal } from '@preact/signals'
import { useMemo } from 'preact/hooks'
import { Refused, sendBytes } from '../../api.ts'
import { refuse, submit, useForm } from '../../state/form.ts'
import { compact } from '../../state/reader.ts'
import { useResource } from '../../state/resource.ts'
import type { KitchenView, LotView } from '../../state/views.ts'
import { today } from '../../ui/figures.ts'
import { EntryForm, FormChoice, FormText } from '../../ui/form.tsx'
import { Caution } from '../../ui/notes.tsx'
import { readingOf, type CentreFile } from './centre-file.ts'
import { FreezingFinding } from './freezing-finding.tsx'
import { wayHint, ways, type Way } from './made-safe-words.ts'
import { askedOf, at, CentreFields, RoomFields, thinTyped } from './treat-fields.tsx'

const fields = [
  'way',
  'on',
  'thicknessMm',
  'thicknessConfirmed',
  'roomC',
  'from',
  'fromTime',
  'until',
  'untilTime',
  'file',
  'column',
  'instrument',
  'document.kind',
  'document.reference',
  'document.issuer',
  'note',
]

/** Record how a lot was made safe for eating raw, with what the freezing schedules say of it as it is typed. */
export function Treat({ lot: l }: { lot: LotView }) {
  const form = useForm(`treat-${l.lot}`, { way: 'frozen-room', on: today() })
  const kitchen = useResource<KitchenView>('/api/kitchen').value.value
  const file = useMemo(() => signal<CentreFile | undefined>(undefined), [])
  const v = form.values.value
  const way = (v['way'] ?? 'frozen-room') as Way
  const column = v['column'] || (file.value?.columns.length === 1 ? file.value.columns[0]! : '')
  const send = async (): Promise<void> => {
    let sha256: string | undefined
    if (way === 'frozen-centre') {
      const open = file.value
      if (!open)
        return refuse(form, [{ path: 'file', message: 'is missing; allowed: the log of the centre as a file' }])
      if (open.trouble) return refuse(form, [{ path: 'file', message: open.trouble }])
      const asked = open.questions[0]
      if (asked) return refuse(form, [{ path: 'file', message: `${asked.text} allowed: an answer to that` }])
      if (!column) return refuse(form, [{ path: 'column', message: 'is not chosen; allowed: one of its columns' }])
      try {
        sha256 = (await sendBytes<{ sha256: string }>('PUT', '/api/files', open.bytes)).sha256
      } catch (error) {
        return refuse(form, error instanceof Refused ? error.faults : [{ path: 'file', message: String(error) }])
      }
    }
    await submit(form, {
      read: (r, typed) => {
        const frozen = way === 'frozen-room' || way === 'frozen-centre'
        const room = way === 'frozen-room'
        const paper = way === 'certified-herd' || way === 'tested' || way === 'published-cure'
        const kind = paper ? r.text('document.kind', { required: true }) : undefined
        const reference = paper ? r.text('document.reference', { required: true }) : undefined
        if (kind !== undefined && (way === 'certified-herd' || way === 'tested') && !paperKinds[way].includes(kind))
          r.fault('document.kind', `is not chosen; allowed: ${paperKinds[way].join(', ')}`)
        const undated = way === 'frozen-centre' && file.value?.dated === false
        if (room || undated)
          for (const name of room ? (['from', 'until'] as const) : (['from'] as const)) {
            if (!typed[name]) r.fault(name, 'is empty; allowed: a day')
            const time = (typed[`${name}Time`] ?? '').trim()
            if (time && !/^([01]?\d|2[0-3]):[0-5]\d$/.test(time))
              r.fault(`${name}Time`, `is ${JSON.stringify(time.slice(0, 20))}; allowed: a time from 00:00 to 23:59`)
          }
        const thin = frozen ? thinTyped(typed['thicknessMm']) : undefined
        const confirmed = typed['thicknessConfirmed'] === 'yes'
        if (thin !== undefined && !confirmed)
          r.fault(
            'thicknessConfirmed',
            `${thin} mm is not confirmed; allowed: tick it where it was measured so, or type the thickness with its unit, such as 14 cm`,
          )
        return {
          kind: 'lot.treat',
          body: {
            lot: l.lot,
            way,
            on: r.text('on', { required: true }),
            ...compact({
              thicknessMm: frozen ? r.quantity('thicknessMm', 'length', { required: room }) : undefined,
              thicknessConfirmed: thin !== undefined && confirmed ? true : undefined,
              roomC: room ? r.quantity('roomC', 'temperature', { required: true, allowNegative: true }) : undefined,
              from: room || undated ? at(typed['from'], typed['fromTime'], 'from') : undefined,
              until: room ? at(typed['until'], typed['untilTime'], 'until') : undefined,
              file: sha256,
              fileName: sha256 && file.value?.name.slice(0, 200),
              column: sha256 && column,
              reading: sha256 && file.value && readingOf(file.value),
              instrument: frozen ? typed['instrument'] || undefined : undefined,
              document:
                kind !== undefined && reference !== undefined
                  ? { kind, reference, ...compact({ issuer: r.text('document.issuer') }) }
                  : undefined,
              note: r.text('note'),
            }),
          },
        }
      },
      done: 'Recorded.',
      after: () => (file.value = undefined),
      fieldFor: { document: 'document.kind' },
    })
  }
  return (
    <EntryForm
      form={form}
      fields={fields}
      label="How it was made safe"
      action="Record it"
      quiet
      onSubmit={() => void send()}
    >
      <Caution>
        Trichinella is in the muscle of pigs, wild boar, bear and horse and is not seen. These schedules kill it in
        domestic pork and nothing else: not Salmonella, not Listeria, not Toxoplasma. The law of the place comes first.
      </Caution>
      <div class="row top">
        <FormChoice form={form} name="way" label="How" options={ways.map((w) => ({ ...w }))} />
        <FormText
          form={form}
          name="on"
          type="date"
          label="Done on"
          required
          hint="The day the treatment ended, or of the paper."
        />
      </div>
      <p class="hint">{wayHint[way]}</p>
      {way === 'frozen-room' && <RoomFields form={form} />}
      {way === 'frozen-centre' && <CentreFields form={form} file={file} column={column} />}
      {(way === 'frozen-room' || way === 'frozen-centre') && (
        <>
          <FormChoice
            form={form}
            name="instrument"
            label="Read on"
            hint="A thermometer nobody can name proves nothing."
            options={[
              { value: '', label: 'not said' },
              ...(kitchen?.instruments ?? [])
                .filter((i) => (i.type === 'thermometer' || i.type === 'logger') && !i.retired)
                .map((i) => ({ value: i.instrument, label: i.name })),
            ]}
          />
          {!v['instrument'] && (
            <p class="late">
              No thermometer is named: whatever the schedules say, no batch is released by this treatment.
            </p>
          )}
          <FreezingFinding asked={askedOf(form, l, kitchen, file.value, column)} />
        </>
      )}
      {(way === 'certified-herd' || way === 'tested' || way === 'published-cure') && (
        <div class="row top">
          {way === 'published-cure' ? (
            <FormText form={form} name="document.kind" label="The paper: what it is" required />
          ) : (
            <FormChoice
              form={form}
              name="document.kind"
              label="The paper: what it is"
              required
              hint="A paper called anything else does not count; enter it in the note."
              options={[{ value: '', label: 'choose' }, ...paperKinds[way].map((k) => ({ value: k, label: k }))]}
            />
          )}
          <FormText form={form} name="document.reference" label="The paper: number" required />
          <FormText form={form} name="document.issuer" label="Who issued it" />
        </div>
      )}
      <FormText form={form} name="note" label="Note on the treatment" />
    </EntryForm>
  )
}
