import { post, Refused } from '../../api.ts'
import { go } from '../../router.ts'
import { refuse, useForm } from '../../state/form.ts'
import type { KitchenView } from '../../state/views.ts'
import { who } from '../../state/who.ts'
import { EntryForm, FormChoice, FormText } from '../../ui/form.tsx'
import { moistChannels, type FeedView } from './feed-state.ts'
import type { Roles } from './channel-roles.tsx'

const instrumentField = (channel: string): string => `instrument ${channel}`

/** Close the feed: its readings become a logger file and a curve of the batch, and are judged. */
export function CloseFeed({
  batch,
  feed,
  roles,
  kitchen,
  purpose = 'cook-and-chill',
}: {
  batch: string
  feed: FeedView
  roles: Roles
  kitchen: KitchenView
  purpose?: 'cook-and-chill' | 'ferment' | 'dry'
}) {
  const used = feed.channels.filter((c) => roles[c] !== 'ignore')
  const form = useForm(`close-${batch}`, { purpose, note: '' })
  const moist = moistChannels(feed)
  const instruments = (channel: string) =>
    kitchen.instruments.filter(
      (i) => (i.type === 'logger' || i.type === (moist.has(channel) ? 'hygrometer' : 'thermometer')) && !i.retired,
    )
  const send = async (): Promise<void> => {
    if (!who.value)
      return refuse(form, [
        { path: 'by', message: 'nobody is named; allowed: choose who is working here, at the top of the page' },
      ])
    const values = form.values.value
    form.sending.value = true
    try {
      const { entries } = await post<{ entries: { seq: number }[] }>(`/api/feed/${encodeURIComponent(batch)}/close`, {
        by: who.value,
        purpose: values['purpose'],
        channels: feed.channels.map((channel) => ({
          channel,
          role: roles[channel] ?? 'ignore',
          ...(values[instrumentField(channel)] && roles[channel] !== 'ignore'
            ? { instrument: values[instrumentField(channel)] }
            : {}),
        })),
        ...(values['note']?.trim() ? { note: values['note'].trim() } : {}),
        key: form.key.value,
      })
      form.clear()
      const slow = values['purpose'] === 'ferment' || values['purpose'] === 'dry'
      go(
        slow
          ? `/curves/${values['purpose']}/${encodeURIComponent(batch)}`
          : `/curves/${encodeURIComponent(batch)}/${entries[0]!.seq}`,
      )
    } catch (error) {
      if (!(error instanceof Refused)) throw error
      refuse(
        form,
        error.faults.map((f) => {
          const channel = feed.channels[Number(/^channels\[(\d+)\]/.exec(f.path)?.[1] ?? NaN)]
          return channel === undefined ? f : { path: instrumentField(channel), message: f.message }
        }),
      )
    } finally {
      form.sending.value = false
    }
  }
  return (
    <section>
      <h2>Close it into the record</h2>
      <EntryForm
        form={form}
        fields={['purpose', 'note', ...used.map(instrumentField)]}
        label="Close the feed"
        action="Close into the record"
        onSubmit={() => void send()}
      >
        <div class="stage-row">
          <FormChoice
            form={form}
            name="purpose"
            label="It covers"
            options={[
              { value: 'cook-and-chill', label: 'cook and chill' },
              { value: 'cook', label: 'the cook' },
              { value: 'chill', label: 'the chill' },
              { value: 'ferment', label: 'the fermentation' },
              { value: 'dry', label: 'the drying' },
            ]}
          />
          {used.map((channel) => (
            <FormChoice
              key={channel}
              form={form}
              name={instrumentField(channel)}
              label={`${moist.has(channel) ? 'Hygrometer' : 'Thermometer'} of ${channel}`}
              options={[
                { value: '', label: 'not known' },
                ...instruments(channel).map((i) => ({ value: i.instrument, label: i.name })),
              ]}
            />
          ))}
          <FormText form={form} name="note" label="Note" />
        </div>
        <p class="hint">Without a thermometer in date, nothing the log shows can pass.</p>
      </EntryForm>
    </section>
  )
}
