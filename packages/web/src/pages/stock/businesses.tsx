import { submit, useForm } from '../../state/form.ts'
import { compact } from '../../state/reader.ts'
import { useResource } from '../../state/resource.ts'
import type { BusinessView } from '../../state/views.ts'
import { EntryForm, FormText } from '../../ui/form.tsx'
import { LongList } from '../../ui/long-list.tsx'
import { Shown } from '../../ui/notes.tsx'
import { Sheet } from '../../ui/sheet.tsx'

const kinds = ['supplier', 'customer', 'carrier'] as const

/** Suppliers, customers and carriers, with the addresses that tracing rules ask for. */
export function Businesses() {
  const all = useResource<{ businesses: readonly BusinessView[] }>('/api/businesses')
  return (
    <>
      <h1>Businesses</h1>
      <p>
        A shipment or a lot that carries the name or the code of one of these has its address in a recall. Tracing rules
        ask for name and address of everyone a food came from and went to, but not of those who eat it.
      </p>
      <Shown of={all.value} what="the businesses">
        {({ businesses }) => (
          <LongList
            items={businesses}
            what="businesses"
            text={(b) => `${b.business} ${b.name} ${b.address ?? ''}`}
            empty="None yet. Add the customers that packs go to, and the suppliers that lots come from."
          >
            {(shown) => (
              <Sheet
                caption="Businesses"
                rows={shown}
                rowKey={(b) => b.business}
                columns={[
                  { head: 'Name', names: true, cell: (b) => <a href={`/record/${b.seq}`}>{b.name}</a> },
                  { head: 'Code', keep: true, cell: (b) => b.business },
                  { head: 'As', cell: (b) => b.as.join(', ') },
                  { head: 'Address', cell: (b) => b.address ?? <span class="late">not recorded</span> },
                  { head: 'Contact', cell: (b) => b.contact ?? '–' },
                ]}
              />
            )}
          </LongList>
        )}
      </Shown>
      <AddBusiness />
    </>
  )
}

function AddBusiness() {
  const form = useForm('business', { customer: 'yes' })
  const send = (): Promise<void> =>
    submit(form, {
      read: (r, v) => {
        const as = kinds.filter((k) => v[k] === 'yes')
        if (as.length === 0) r.fault('as', 'is empty; allowed: at least one of supplier, customer, carrier')
        return {
          kind: 'business.add',
          body: {
            business: r.text('business', { required: true }),
            name: r.text('name', { required: true }),
            as,
            ...compact({ address: r.text('address'), contact: r.text('contact'), approval: r.text('approval') }),
          },
        }
      },
    })
  return (
    <EntryForm
      form={form}
      fields={['business', 'name', 'address', 'contact', 'approval']}
      label="Add a business"
      action="Add the business"
      onSubmit={() => void send()}
    >
      <h2>Add a business</h2>
      <div class="columns">
        <FormText form={form} name="name" label="Name" required hint="As it stands on shipments and lots." />
        <FormText form={form} name="business" label="Code" required />
        <FormText form={form} name="address" label="Address" />
        <FormText form={form} name="contact" label="Whom to call, and how" />
        <FormText form={form} name="approval" label="Approval or registration number" />
      </div>
      <fieldset>
        <legend>It is a</legend>
        {kinds.map((k) => (
          <label class="tick" key={k}>
            <input
              type="checkbox"
              checked={form.values.value[k] === 'yes'}
              onInput={(e) => form.set(k, e.currentTarget.checked ? 'yes' : '')}
            />
            {k}
          </label>
        ))}
      </fieldset>
    </EntryForm>
  )
}
