import { measured } from '../../ui/figures.ts'
import { fieldName } from '../../ui/words.ts'
import { leavesOf } from './leaves.ts'

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
              <td>{typeof value === 'number' ? measured(value, unitIn(path)) : String(value)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}

/** The unit a field's name ends in. */
export function unitIn(path: string): string {
  const name = path.replace(/.*[.\]]/, '')
  if (name.endsWith('PerKg')) return 'per kg'
  if (name === 'kg' || name.endsWith('Kg')) return 'kg'
  if (name.endsWith('Pct') || name === 'pct') return '%'
  if (name.endsWith('Ppm')) return 'mg/kg'
  if (/[a-z]C$/.test(name)) return '°C'
  if (/[a-z]Mm$/.test(name)) return 'mm'
  if (/[a-z]G$/.test(name)) return 'g'
  if (/[a-z]M$/.test(name)) return 'm'
  return ''
}
