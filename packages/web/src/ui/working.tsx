import type { ComponentChildren } from 'preact'
import type { WorkingStep } from '@forcemeat/craft/finding'
import { number } from './figures.ts'

/** A figure that opens to its steps. */
export function Working({
  figure,
  steps,
  open = false,
  children,
}: {
  figure: ComponentChildren
  steps: readonly WorkingStep[]
  /** Open from the start, where the working is what is looked for. */
  open?: boolean
  children?: ComponentChildren
}) {
  return (
    <details class="working" open={open}>
      <summary>{figure}</summary>
      <table>
        <thead>
          <tr>
            <th scope="col">Step</th>
            <th scope="col">How</th>
            <th scope="col" class="num">
              Value
            </th>
          </tr>
        </thead>
        <tbody>
          {steps.map((s) => (
            <tr key={s.step + s.expression}>
              <td>{s.step}</td>
              <td class="formula">{s.expression}</td>
              <td class="num">
                {number(s.value, 6)} {s.unit}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      {children}
    </details>
  )
}
