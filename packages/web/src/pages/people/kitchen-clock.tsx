import { refuse, submit, useForm } from '../../state/form.ts'
import { keptOf } from '../../state/kitchen-kept.ts'
import type { KitchenView } from '../../state/views.ts'
import { EntryForm, FormText } from '../../ui/form.tsx'

type Kitchen = NonNullable<KitchenView['kitchen']>

/** The zone this screen's clock runs in. */
export const zoneHere = (): string => Intl.DateTimeFormat().resolvedOptions().timeZone

/** Where the days of the kitchen begin and end: a meter counts as checked on the day its reading was taken there. */
export function KitchenClock({ kitchen }: { kitchen: Kitchen }) {
  const form = useForm(`kitchen-clock-${kitchen.seq ?? 0}`, { timeZone: kitchen.timeZone ?? zoneHere() })
  const send = (): void => {
    const { seq } = kitchen
    if (seq === undefined)
      return refuse(form, [{ path: '', message: 'the entry of the kitchen is not known; reload the page' }])
    void submit(form, {
      read: (r) => {
        const timeZone = r.text('timeZone', { required: true })
        if (timeZone === undefined) return undefined
        return {
          kind: 'kitchen.set',
          corrects: seq,
          why: `its days are those of ${timeZone}`,
          body: { ...keptOf(kitchen), timeZone },
        }
      },
      clear: false,
    })
  }
  return (
    <EntryForm
      form={form}
      fields={['timeZone']}
      label="Days of this kitchen"
      action="Set the zone"
      quiet
      onSubmit={send}
    >
      <h2>Days of this kitchen</h2>
      <p class="hint">
        A pH or water activity counts by a meter checked the same day: the day here.{' '}
        {kitchen.timeZone === undefined
          ? 'No zone is set: the days are those of the machine the record is kept on.'
          : `They are told in ${kitchen.timeZone}.`}
      </p>
      <FormText
        form={form}
        name="timeZone"
        label="Time zone"
        required
        hint="Such as Europe/London or America/Chicago."
      />
    </EntryForm>
  )
}
