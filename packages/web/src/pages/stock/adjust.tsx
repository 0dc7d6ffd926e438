import { submit, useForm } from '../../state/form.ts'
import { compact } from '../../state/reader.ts'
import { EntryForm, FormChoice, FormQuantity, FormText } from '../../ui/form.tsx'
import { today } from '../../ui/figures.ts'

/** Take out waste, put right a count, send back: always with its reason. */
export function AdjustLot({ lot }: { lot: string }) {
  const form = useForm(`adjust-${lot}`, { reason: 'waste', on: today() })
  const send = (): Promise<void> =>
    submit(form, {
      read: (r, v) => ({
        kind: 'lot.adjust',
        body: {
          lot,
          kg: r.quantity('kg', 'mass', { required: true, allowNegative: true }),
          reason: v['reason'],
          on: r.text('on', { required: true }),
          ...compact({ note: r.text('note') }),
        },
      }),
      done: 'Adjusted.',
    })
  return (
    <>
      <h2>Adjust this lot</h2>
      <EntryForm
        form={form}
        fields={['kg', 'reason', 'on', 'note']}
        label="Adjust this lot"
        action="Record the adjustment"
        onSubmit={() => void send()}
      >
        <div class="row top">
          <FormQuantity
            form={form}
            name="kg"
            kind="mass"
            allowNegative
            label="Change of weight"
            required
            hint="Less than zero takes out: −1.5 kg."
          />
          <FormChoice
            form={form}
            name="reason"
            label="Reason"
            options={[
              { value: 'waste', label: 'waste' },
              { value: 'count', label: 'count' },
              { value: 'returned', label: 'sent back' },
              { value: 'transfer', label: 'moved elsewhere' },
              { value: 'other', label: 'other' },
            ]}
          />
          <FormText form={form} name="on" type="date" label="Adjusted on" required />
        </div>
        <FormText form={form} name="note" label="Note on the adjustment" />
      </EntryForm>
    </>
  )
}
