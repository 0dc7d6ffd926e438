import type { ComponentChildren } from 'preact'
import { signal } from '@preact/signals'
import { useMemo } from 'preact/hooks'

/** One matter of the bench: its headline always in sight and up to date, the rest made when it is opened. */
export function Panel({
  title,
  headline,
  children,
}: {
  title: string
  headline?: ComponentChildren
  children: ComponentChildren
}) {
  const open = useMemo(() => signal(false), [])
  return (
    <details class="panel" onToggle={(e) => (open.value = e.currentTarget.open)}>
      <summary>
        <span class="panel-title">{title}</span> {headline && <span class="panel-headline">{headline}</span>}
      </summary>
      {open.value && <div class="panel-body">{children}</div>}
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
