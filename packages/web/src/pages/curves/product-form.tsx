import { signal } from '@preact/signals'
import { useMemo } from 'preact/hooks'
import { ChoiceField, TextField } from '../../ui/field.tsx'
import { readPlain } from '../../state/reader.ts'
import { judgeOpenFile, product, type Product } from './state.ts'

type Field = 'nitrite' | 'erythorbate' | 'fat' | 'tolerance'

const change = (next: Partial<Product>): void => {
  product.value = { ...product.value, ...next }
  void judgeOpenFile()
}

/** Figures of the product the rules turn on; what is left empty stays unknown. */
export function ProductForm() {
  const typed = useMemo(
    () => signal<Record<Field, string>>({ nitrite: '', erythorbate: '', fat: '', tolerance: '' }),
    [],
  )
  const faults = useMemo(() => signal<Partial<Record<Field, string>>>({}), [])
  const { lethality, cooling } = product.value

  const figure = (field: Field, value: string, max: number, put: (x: number | undefined) => void): void => {
    typed.value = { ...typed.value, [field]: value }
    if (value.trim() === '') {
      faults.value = { ...faults.value, [field]: undefined as never }
      put(undefined)
      return
    }
    const read = readPlain(value)
    const fault = !read.ok
      ? read.message
      : read.value < 0 || read.value > max
        ? `is ${read.value}; allowed: 0 to ${max}`
        : undefined
    faults.value = { ...faults.value, [field]: fault as never }
    if (read.ok && fault === undefined) put(read.value)
  }
  const withFigure = <T extends object, K extends keyof T>(object: T, key: K, x: T[K] | undefined): T => {
    const { [key]: _dropped, ...rest } = object
    return (x === undefined ? rest : { ...rest, [key]: x }) as T
  }
  return (
    <section aria-label="The product and the probe">
      <h2>The product and the probe</h2>
      <div class="row">
        <ChoiceField
          label="Meat"
          value={lethality.species ?? ''}
          options={[
            { value: '', label: 'not said' },
            { value: 'meat', label: 'no poultry in it' },
            { value: 'chicken', label: 'chicken' },
            { value: 'turkey', label: 'turkey' },
            { value: 'other-poultry', label: 'other or mixed poultry' },
          ]}
          onInput={(species) => change({ lethality: withFigure(lethality, 'species', species || undefined) })}
        />
        <TextField
          label="Fat"
          unit="%"
          numeric
          value={typed.value.fat}
          fault={faults.value.fat}
          onInput={(v) => figure('fat', v, 100, (x) => change({ lethality: withFigure(lethality, 'fatPct', x) }))}
        />
        <ChoiceField
          label="Cure"
          value={cooling === undefined ? '' : cooling.cured ? 'cured' : 'none'}
          options={[
            { value: '', label: 'not said' },
            { value: 'none', label: 'no cure' },
            { value: 'cured', label: 'cured' },
          ]}
          onInput={(v) =>
            change({ cooling: v === '' ? undefined : { intact: false, ...cooling, cured: v === 'cured' } })
          }
        />
        {cooling?.cured && (
          <>
            <TextField
              label="Ingoing nitrite"
              unit="mg/kg"
              numeric
              value={typed.value.nitrite}
              fault={faults.value.nitrite}
              onInput={(v) =>
                figure('nitrite', v, 10_000, (x) => change({ cooling: withFigure(cooling, 'nitritePpm', x) }))
              }
            />
            <TextField
              label="Erythorbate or ascorbate"
              unit="mg/kg"
              numeric
              value={typed.value.erythorbate}
              fault={faults.value.erythorbate}
              onInput={(v) =>
                figure('erythorbate', v, 10_000, (x) => change({ cooling: withFigure(cooling, 'erythorbatePpm', x) }))
              }
            />
          </>
        )}
        <TextField
          label="Thermometer's error"
          unit="± °C"
          numeric
          value={typed.value.tolerance}
          fault={faults.value.tolerance}
          hint="From its last check. Empty: not known, and every finding says so."
          onInput={(v) => figure('tolerance', v, 20, (x) => change({ toleranceC: x }))}
        />
      </div>
    </section>
  )
}
