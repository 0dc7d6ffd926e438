import { signal } from '@preact/signals'
import { useMemo } from 'preact/hooks'
import { jurisdictions } from '@forcemeat/craft/recipe/schema'
import { post, Refused } from '../../api.ts'
import { go } from '../../router.ts'
import { recordVersion } from '../../state/live.ts'
import { submit, useForm } from '../../state/form.ts'
import { compact } from '../../state/reader.ts'
import { who } from '../../state/who.ts'
import { EntryForm, FormChoice, FormQuantity, FormText, faultAt } from '../../ui/form.tsx'
import { Caution, Faults } from '../../ui/notes.tsx'
import { placeName } from '../../ui/words.ts'
import { zoneHere } from '../people/kitchen-clock.tsx'

const fields = ['name', 'place', 'altitude', 'timeZone', 'jurisdictions', 'units', 'person', 'personName']

/** An empty record: set up the kitchen and the first person, or load the invented kitchen to try things out. */
export function FirstRun() {
  const form = useForm('first-run', { units: 'metric', timeZone: zoneHere() })
  const values = form.values.value
  const altitudeUnit = values['units'] === 'us' ? 'ft' : 'm'
  const send = (): Promise<void> =>
    submit(form, {
      read: (r, v) => {
        const altitude = r.quantity('altitude', 'length', { unit: altitudeUnit, as: 'm', allowNegative: true })
        const places = jurisdictions.filter((j) => v[`place-${j}`] === 'yes')
        if (places.length === 0) r.fault('jurisdictions', 'none is chosen; allowed: one place or more')
        const name = r.text('name', { required: true })
        const person = r.text('person', { required: true })
        const personName = r.text('personName', { required: true })
        if (!person || !personName || !name) return undefined
        const body = { name, jurisdictions: places, units: v['units'] ?? 'metric' }
        return [
          { kind: 'person.add', by: person, body: { person, name: personName, role: 'owner' } },
          {
            kind: 'kitchen.set',
            by: person,
            body: {
              ...body,
              ...compact({ place: r.text('place'), altitudeM: altitude, timeZone: r.text('timeZone') }),
            },
          },
        ]
      },
      fieldFor: { by: 'person', altitudeM: 'altitude' },
      after: () => {
        who.value = values['person']?.trim() ?? ''
        go('/today')
      },
    })
  return (
    <>
      <h1>Set up this kitchen</h1>
      <Caution>
        The program informs; the maker, the law of the place and a qualified person decide. Local codes and licensed
        practice come first.
      </Caution>
      <div class="two">
        <EntryForm
          form={form}
          fields={fields}
          action="Start the record"
          onSubmit={() => void send()}
          label="Set up this kitchen"
        >
          <FormText form={form} name="name" label="Name of the kitchen" required />
          <FormText form={form} name="place" label="Town and country" />
          <FormQuantity
            form={form}
            name="altitude"
            kind="length"
            unit={altitudeUnit}
            allowNegative
            label="Altitude"
            hint="In m or ft. Water boils lower higher up; thermometers are checked against it."
          />
          <FormText
            form={form}
            name="timeZone"
            label="Time zone"
            hint="Its days are told in it: a meter counts as checked on the day of its reading here."
          />
          <fieldset>
            <legend>Where you sell</legend>
            {jurisdictions.map((j) => (
              <label class="tick" key={j}>
                <input
                  type="checkbox"
                  checked={values[`place-${j}`] === 'yes'}
                  onInput={(e) => form.set(`place-${j}`, e.currentTarget.checked ? 'yes' : '')}
                />
                {placeName(j)}
              </label>
            ))}
            {faultAt(form, 'jurisdictions') && <p class="fault">{faultAt(form, 'jurisdictions')}</p>}
          </fieldset>
          <FormChoice
            form={form}
            name="units"
            label="Units"
            options={[
              { value: 'metric', label: 'kilograms and °C' },
              { value: 'us', label: 'pounds and °F' },
            ]}
          />
          <FormText form={form} name="personName" label="Your name" required />
          <FormText
            form={form}
            name="person"
            label="Your short code"
            required
            hint="Letters and digits, such as initials; it signs what you record."
          />
        </EntryForm>
        <Demo />
      </div>
    </>
  )
}

function Demo() {
  const state = useMemo(() => signal<{ busy: boolean; error?: Refused }>({ busy: false }), [])
  const load = async (): Promise<void> => {
    state.value = { busy: true }
    try {
      await post('/api/demo', {})
      recordVersion.value += 1
      state.value = { busy: false }
    } catch (error) {
      if (!(error instanceof Refused)) throw error
      state.value = { busy: false, error }
    }
  }
  return (
    <section aria-labelledby="try">
      <h2 id="try" class="first">
        Or look around first
      </h2>
      <p>An invented kitchen with lots, recipes and batches: one made well, one that must be held.</p>
      <Faults error={state.value.error} />
      <button type="button" disabled={state.value.busy} onClick={() => void load()}>
        {state.value.busy ? 'Loading…' : 'Load the invented kitchen'}
      </button>
    </section>
  )
}
