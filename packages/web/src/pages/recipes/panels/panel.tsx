import type { ComponentChildren } from 'preact'

/** One matter of the bench: its headline always in sight and up to date, the rest on opening. */
export function Panel({
  title,
  headline,
  children,
}: {
  title: string
  headline?: ComponentChildren
  children: ComponentChildren
}) {
  return (
    <details class="panel">
      <summary>
        <span class="panel-title">{title}</span> <span class="panel-headline">{headline}</span>
      </summary>
      <div class="panel-body">{children}</div>
    </details>
  )
}

/** A figure under its name. */
export const Told = ({ rows }: { rows: readonly (readonly [string, ComponentChildren])[] }) => (
  <table>
    <tbody>
      {rows.map(([name, value]) => (
        <tr key={name}>
          <th scope="row" class="names">
            {name}
          </th>
          <td class="num">{value}</td>
        </tr>
      ))}
    </tbody>
  </table>
)
