import { apart, day, instant, measured, pricePerMass } from '../../ui/figures.ts'
import { materialName } from '../../ui/material-field.tsx'
import { fieldName } from '../../ui/words.ts'
import { isDifference, unitIn } from './body-units.ts'
import { leavesOf, type Leaf } from './leaves.ts'

/** A value of a fact as a reader would say it: a price by the weight, a material by its name, a date with its month. */
function told(path: string, value: Leaf): string {
  const name = path.replace(/^.*\.|\[\d+\]$/g, '')
  if (typeof value === 'boolean') return value ? 'yes' : 'no'
  if (typeof value === 'number') {
    if (name === 'costPerKg' || name === 'pricePerKg') return pricePerMass(value)
    return (isDifference(path) ? apart : measured)(value, unitIn(path))
  }
  if (/^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}/.test(value)) return instant(value)
  if (/^\d{4}-\d{2}-\d{2}$/.test(value)) return day(value)
  return /^(material|casing|of)$/i.test(name) ? materialName(value) : value
}

/** A fact's fields, one a row, figures in the units of this screen. */
export function BodyTable({ body }: { body: Readonly<Record<string, unknown>> }) {
  return (
    <div class="sheet" tabIndex={0} role="region" aria-label="What was recorded">
      <table>
        <caption class="visually-hidden">What was recorded</caption>
        <tbody>
          {leavesOf(body).map(([path, value]) => (
            <tr key={path}>
              <th scope="row" class="names">
                {fieldName(path)}
              </th>
              <td>{told(path, value)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}
