import { labelLanguages, languageNames, type LabelLanguage } from '@forcemeat/craft/declare/label/languages'
import type { Form } from '../../state/form.ts'
import { FormChoice, FormText } from '../../ui/form.tsx'
import type { ProofView } from './label-views.ts'
import { languagesTyped } from './pack-text.ts'

const places = ['First', 'Second', 'Third', 'Fourth']
const options = [{ value: '', label: 'none' }, ...labelLanguages.map((l) => ({ value: l, label: languageNames[l] }))]

/** Field of the maker's word for a text in a language. */
export const wordField = (language: LabelLanguage, of: string): string => `word.${language}.${of}`

/** A language: the name of the product in it, and a word for each text that has none. */
function OneLanguage({ form, language, proof }: { form: Form; language: LabelLanguage; proof: ProofView | undefined }) {
  const version = proof?.content.versions.find((v) => v.language === language)
  const prefix = wordField(language, '')
  const typed = Object.keys(form.values.value).flatMap((k) =>
    k.startsWith(prefix) && (form.values.value[k] ?? '') !== '' ? [k.slice(prefix.length)] : [],
  )
  const asked = (version?.missing ?? []).filter((m) => m.what !== 'name').map((m) => m.text)
  const words = [...new Set([...typed, ...asked])]
  const name = languageNames[language]
  return (
    <fieldset>
      <legend>{name}</legend>
      <FormText form={form} name={`lang.${language}.name`} label={`Name on the label in ${name}`} />
      {words.map((of) => (
        <FormText key={of} form={form} name={wordField(language, of)} label={`“${of}” in ${name}`} />
      ))}
      {version && version.from.length > 0 && (
        <details>
          <summary>Where the {name} comes from</summary>
          <ul>
            {version.from.map((s) => (
              <li key={`${s.document} ${s.section}`}>
                {s.document}, {s.section}
                {s.edition === '' ? '' : ` (${s.edition})`}: {s.mark}
              </li>
            ))}
          </ul>
        </details>
      )}
    </fieldset>
  )
}

/** Languages of the label, in their order. */
export function LanguageForm({ form, proof }: { form: Form; proof: ProofView | undefined }) {
  const chosen = languagesTyped(form.values.value)
  // One more choice than are taken, so that the page is no longer than it has to be.
  const shown = Math.min(places.length, chosen.length + 1)
  return (
    <>
      <fieldset>
        <legend>Languages</legend>
        {places.slice(0, shown).map((which, i) => (
          <FormChoice
            key={which}
            form={form}
            name={`lang${i + 1}`}
            label={`${which} language`}
            options={i === 0 ? options.slice(1) : options}
          />
        ))}
      </fieldset>
      {chosen
        .filter((l) => l !== 'en')
        .map((l) => (
          <OneLanguage key={l} form={form} language={l} proof={proof} />
        ))}
    </>
  )
}
