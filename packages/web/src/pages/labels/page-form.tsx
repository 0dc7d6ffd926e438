import { labelParts, type LabelPart } from '@forcemeat/craft/declare/label/pack'
import type { Form } from '../../state/form.ts'
import { FormChoice, FormText } from '../../ui/form.tsx'
import { choose } from './choices.ts'

const partNames: Readonly<Record<LabelPart, string>> = {
  ingredients: 'List of ingredients',
  allergens: 'Contains and may contain',
  statements: 'Statements, such as the casing',
  date: 'Date and storage',
  handling: 'Handling',
  lot: 'Lot',
  business: 'Business',
}

/** Order of the parts as typed; those it does not name follow in the usual one. */
export const orderOf = (typed: string | undefined): LabelPart[] => {
  const named = (typed ?? '').split(',').flatMap((p) => labelParts.find((known) => known === p) ?? [])
  return [...named, ...labelParts.filter((p) => !named.includes(p))]
}

/** The parts of the label in their order, each with a way up and down. */
function Order({ form }: { form: Form }) {
  const order = orderOf(form.values.value['order'])
  const move = (part: LabelPart, by: -1 | 1): void => {
    const at = order.indexOf(part)
    const to = order.with(at, order[at + by]!).with(at + by, part)
    form.set('order', to.join(','))
  }
  return (
    <fieldset class="label-order">
      <legend>Order of the text</legend>
      <ol>
        {order.map((part, i) => (
          <li key={part}>
            <span>{partNames[part]}</span>
            <button
              type="button"
              disabled={i === 0}
              aria-label={`${partNames[part]}: up`}
              onClick={() => move(part, -1)}
            >
              up
            </button>
            <button
              type="button"
              disabled={i === order.length - 1}
              aria-label={`${partNames[part]}: down`}
              onClick={() => move(part, 1)}
            >
              down
            </button>
          </li>
        ))}
      </ol>
    </fieldset>
  )
}

/** A number that is read in one shop or country, with price or weight in it; what its digits mean is laid down there. */
function InStore({ form }: { form: Form }) {
  const own = (form.values.value['inStore.prefix'] ?? '') !== ''
  return (
    <>
      <FormChoice
        form={form}
        name="inStore.prefix"
        label="Number with price or weight, prefix"
        options={[
          { value: '', label: 'none: the trade item number' },
          ...['02', '20', '21', '22', '23', '24', '25', '26', '27', '28', '29'].map((v) => ({ value: v, label: v })),
        ]}
        hint="Laid down by the country or the shop: ask there."
      />
      {own && (
        <>
          <FormText form={form} name="inStore.item" label="Item in that list" numeric />
          <FormChoice
            form={form}
            name="inStore.of"
            label="It holds"
            options={[
              { value: 'weight', label: 'the weight of the pack, kg' },
              { value: 'price', label: 'the price' },
            ]}
          />
          {form.values.value['inStore.of'] === 'price' && (
            <FormText form={form} name="inStore.price" label="Price of the pack" numeric />
          )}
          <FormChoice
            form={form}
            name="inStore.digits"
            label="Digits for it"
            options={['5', '4', '6'].map((v) => ({ value: v, label: v }))}
          />
          <FormChoice
            form={form}
            name="inStore.decimals"
            label="Of them decimals"
            options={['3', '2', '1', '0'].map((v) => ({ value: v, label: v }))}
          />
          <FormText form={form} name="inStore.verifier" label="Verifier digit, where the scheme has one" numeric />
        </>
      )}
    </>
  )
}

/** The page of the label: its layout, its measures, its code, and the order of what is read. */
export function PageForm({ form, place }: { form: Form; place: string }) {
  const figure = (name: string, label: string, unit: string, hint?: string) => (
    <FormText form={form} name={name} label={label} numeric unit={unit} {...(hint ? { hint } : {})} />
  )
  const several = [2, 3, 4].some((i) => (form.values.value[`lang${i}`] ?? '') !== '')
  return (
    <>
      <fieldset>
        <legend>Page</legend>
        <FormChoice
          form={form}
          name="layout"
          label="Layout"
          options={choose(
            ['column', 'block: one column'],
            ['two-columns', 'two columns'],
            ['head-and-columns', 'head, then two columns'],
            ['strip', 'strip: three columns, long and low'],
            ['front-and-back', 'front and back, folded in the middle'],
          )}
        />
        {figure(
          'widthMm',
          'Width',
          'mm',
          form.values.value['layout'] === 'front-and-back' ? 'Of one face.' : undefined,
        )}
        {figure('heightMm', 'Height', 'mm')}
        {figure('largestSurfaceCm2', 'Largest surface of the pack', 'cm²', 'Smaller letters may do on a small pack.')}
        {figure('marginMm', 'White at the edge', 'mm', '3 mm where it is left empty.')}
        {figure(
          'xHeightMm',
          'Height of the letter x',
          'mm',
          'The least of the place where it is left empty. A smaller one is drawn, measured, and stops the label.',
        )}
        {several && (
          <FormChoice
            form={form}
            name="languageArrangement"
            label="Languages"
            options={choose(['under', 'one under another'], ['beside', 'beside each other'])}
          />
        )}
        {place === 'US' && (
          <FormChoice
            form={form}
            name="panel"
            label="Nutrition panel"
            options={choose(['us-2016', '21 CFR 101.9, rule of 2016'], ['us-1993', '9 CFR 317.309, of the 1990s'])}
          />
        )}
        {place === 'US' && form.values.value['panel'] !== 'us-1993' && (
          <>
            <FormChoice
              form={form}
              name="panelDisplay"
              label="Set"
              options={choose(
                ['vertical', 'vertical'],
                ['tabular', 'in columns, for low or small packs'],
                ['linear', 'as one string, for small packs only'],
              )}
            />
            {figure(
              'availableSurfaceCm2',
              'Surface a label could stand on, all of it',
              'cm²',
              'Small packs: up to 258 cm² (40 square inches).',
            )}
          </>
        )}
      </fieldset>
      <fieldset>
        <legend>Codes</legend>
        <FormText
          form={form}
          name="lotPattern"
          label="Lot code pattern"
          hint="{batch}, {recipe}, {YYYY}, {YY}, {MM}, {DD}, {DDD}: day of the year."
        />
        <FormText form={form} name="gtin" label="Trade item number (GTIN)" />
        <FormChoice
          form={form}
          name="code"
          label="Bar code"
          options={choose(
            ['gs1-128', 'GS1-128'],
            ['gs1-datamatrix', 'GS1 DataMatrix'],
            ['ean-13', 'EAN-13'],
            ['none', 'none'],
          )}
        />
        {form.values.value['code'] === 'ean-13' && <InStore form={form} />}
        {figure('moduleMm', 'Thinnest bar', 'mm', 'The usual width of the code where it is left empty.')}
      </fieldset>
      <Order form={form} />
    </>
  )
}
