import { apart, measured } from '../../ui/figures.ts'
import { fieldName } from '../../ui/words.ts'
import { isDifference, unitIn } from './body-units.ts'
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
              <td>
                {typeof value === 'number'
                  ? (isDifference(path) ? apart : measured)(value, unitIn(path))
                  : String(value)}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}
