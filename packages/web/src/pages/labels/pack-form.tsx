import type { Form } from '../../state/form.ts'
import { Field } from '../../ui/field.tsx'
import { faultAt, FormChoice, FormText } from '../../ui/form.tsx'
import { choose } from './choices.ts'
import { LanguageForm } from './language-form.tsx'
import type { ProofView } from './label-views.ts'
import { analysed, statementColumns } from './pack-text.ts'
import { PageForm } from './page-form.tsx'

/** Places whose nutrition table is drawn for a serving. */
const serves = ['US', 'CA', 'AU-NZ']

const yesNo = choose(['yes', 'yes'], ['no', 'no'])

function Lines({ form, name, label, hint }: { form: Form; name: string; label: string; hint: string }) {
  return (
    <Field label={label} hint={hint} fault={faultAt(form, name)}>
      {({ id, describedBy, invalid }) => (
        <textarea
          id={id}
          rows={3}
          value={form.values.value[name] ?? ''}
          {...(describedBy ? { 'aria-describedby': describedBy } : {})}
          aria-invalid={invalid}
          onInput={(e) => form.set(name, e.currentTarget.value)}
        />
      )}
    </Field>
  )
}

/** How the place it is made in stands, for the mark on the label. */
function Premises({ form, place }: { form: Form; place: string }) {
  const route = form.values.value['premises.route']
  return (
    <>
      <FormChoice
        form={form}
        name="premises.route"
        label="Made in"
        options={choose(
          ['inspected', 'an inspected or approved establishment'],
          ['exempt', 'a kitchen that needs no mark'],
        )}
      />
      {route === 'inspected' && (place === 'EU' || place === 'GB') && (
        <FormText
          form={form}
          name="premises.country"
          label="Country of the establishment"
          hint="Two letters, as its mark has them: IE, DE, GB."
        />
      )}
      {route === 'inspected' && (place === 'US' || place === 'CA') && (
        <FormText
          form={form}
          name="premises.roomMm"
          label="Room for the inspection legend"
          numeric
          unit="mm"
          hint="20 mm where it is left empty. The legend itself is printed from approved artwork."
        />
      )}
      {route === 'exempt' && (
        <FormText
          form={form}
          name="premises.because"
          label="Exemption"
          hint="Which one, and where it is written: sold over the own counter only."
        />
      )}
    </>
  )
}

/** What the maker says of the pack, over and above the recipe and the lots. */
export function PackForm({ form, place, proof }: { form: Form; place: string; proof: ProofView | undefined }) {
  const text = (name: string, label: string, hint?: string) => (
    <FormText form={form} name={name} label={label} {...(hint ? { hint } : {})} />
  )
  const figure = (name: string, label: string, unit: string) => (
    <FormText form={form} name={name} label={label} numeric unit={unit} />
  )
  return (
    <>
      {text('name', 'Name on the label', "The recipe's own where it is left empty.")}
      {figure('netG', 'Net weight', 'g')}
      {text('business', 'Business, name and address')}
      {text('approval', 'Approval or establishment number', "The kitchen's own where it is left empty.")}
      {place !== 'AU-NZ' && <Premises form={form} place={place} />}
      <fieldset>
        <legend>Date and storage</legend>
        {figure('shelfLifeDays', 'Shelf life', 'days')}
        {text('validation', 'What the shelf life rests on', 'Storage trial, challenge test, history of results.')}
        <FormChoice
          form={form}
          name="storage"
          label="Kept"
          options={choose(['chilled', 'chilled'], ['frozen', 'frozen'], ['ambient', 'without refrigeration'])}
        />
        {figure('storageC', 'At most', '°C')}
        <FormChoice form={form} name="highlyPerishable" label="Highly perishable" options={yesNo} />
        <FormChoice
          form={form}
          name="stableUnrefrigerated"
          label="Found stable without refrigeration"
          options={yesNo}
        />
        {(place === 'EU' || place === 'GB') && (
          <FormChoice
            form={form}
            name="protectiveAtmosphere"
            label="Packed under a gas that lengthens its life"
            options={yesNo}
          />
        )}
        <FormText
          form={form}
          name="packedOn"
          label="Packed on"
          type="date"
          hint="A day the batch was packed; the earliest where it is left empty."
        />
        <FormText form={form} name="frozenOn" label="Frozen on" type="date" />
      </fieldset>
      <fieldset>
        <legend>List and allergens</legend>
        <FormChoice
          form={form}
          name="productClass"
          label="Class"
          options={choose(
            ['meat-preparation', 'meat preparation'],
            ['meat-product', 'meat product'],
            ['other', 'other'],
          )}
        />
        <FormChoice
          form={form}
          name="casing"
          label="Casing"
          options={choose(['edible', 'can be eaten'], ['not edible', 'cannot be eaten'])}
        />
        {text(
          'casingName',
          'What the casing is of',
          "Hog casing, sheep casing, beef collagen casing. The recipe's own where it is left empty.",
        )}
        <FormChoice form={form} name="groupSpices" label="Spices by one word where allowed" options={yesNo} />
        <Lines
          form={form}
          name="statements"
          label="Suppliers' statements, one a line"
          hint={`${statementColumns}. Allergens parted by commas, or none. A statement holds for lots of its supplier alone.`}
        />
        <Lines
          form={form}
          name="handling"
          label="Own lines on handling, one a line"
          hint="How to cook it, what to do after opening."
        />
      </fieldset>
      <details>
        <summary>What words beside the name turn on</summary>
        <FormChoice form={form} name="defrosted" label="Frozen before it is sold, and thawed" options={yesNo} />
        <FormChoice form={form} name="looksLikeCut" label="Looks like a whole cut of meat" options={yesNo} />
        <FormChoice form={form} name="formedFromPieces" label="Pieces joined to look like one" options={yesNo} />
        <FormChoice
          form={form}
          name="otherAnimalProtein"
          label="Protein of another animal than the name says"
          options={yesNo}
        />
      </details>
      <details>
        <summary>Analysis per 100 g, serving</summary>
        {serves.includes(place) && figure('servingG', 'Serving', 'g')}
        {figure('fatLossPct', 'Fat that runs off in cooking', '% of the mix')}
        {text('per100gSource', 'Where the analysis is from')}
        {analysed.map(([f, label, unit]) => (
          <FormText key={f} form={form} name={`per100g.${f}`} label={`${label}, analysed`} numeric unit={unit} />
        ))}
      </details>
      <LanguageForm form={form} proof={proof} />
      <PageForm form={form} place={place} />
    </>
  )
}
