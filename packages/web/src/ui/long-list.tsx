import { signal } from '@preact/signals'
import type { ComponentChildren } from 'preact'
import { useMemo } from 'preact/hooks'
import { TextField } from './field.tsx'

const STEP = 60

type Props<T> = {
  items: readonly T[]
  /** What is listed, for the filter's name: "lots". */
  what: string
  /** Text a row is found by. */
  text: (item: T) => string
  empty: ComponentChildren
  /** Most the server gives at once; said where they are that many. */
  most?: number
  /** False where the page filters already. */
  filterable?: boolean
  children: (shown: readonly T[]) => ComponentChildren
}

/** Filters a long list as it is typed and shows it in steps. */
export function LongList<T>({ items, what, text, empty, filterable = true, most, children }: Props<T>) {
  const filter = useMemo(() => signal(''), [])
  const limit = useMemo(() => signal(STEP), [])
  if (items.length === 0) return <div class="empty">{empty}</div>
  const words = filter.value.toLowerCase().split(/\s+/).filter(Boolean)
  const found = words.length ? items.filter((i) => words.every((w) => text(i).toLowerCase().includes(w))) : items
  const shown = found.slice(0, limit.value)
  return (
    <>
      {filterable && (items.length > 8 || filter.value !== '') && (
        <TextField
          type="search"
          label={`Filter ${what}`}
          value={filter.value}
          onInput={(v) => {
            filter.value = v
            limit.value = STEP
          }}
        />
      )}
      {found.length === 0 ? (
        <p class="quiet" role="status">
          None of the {items.length} {what} has “{filter.value}”.
        </p>
      ) : (
        children(shown)
      )}
      {most !== undefined && items.length >= most && (
        <p class="hint">
          Only {most} {what} are read at once; older ones are found through the record.
        </p>
      )}
      {found.length > shown.length && (
        <p class="actions">
          <button type="button" onClick={() => (limit.value += STEP)}>
            Show {Math.min(STEP, found.length - shown.length)} more
          </button>
          <span class="quiet">
            {shown.length} of {found.length} shown
          </span>
        </p>
      )}
    </>
  )
}
