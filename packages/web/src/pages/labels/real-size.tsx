import { signal } from '@preact/signals'
import { useEffect, useMemo } from 'preact/hooks'
import { TextField } from '../../ui/field.tsx'
import { readPlain } from '../../state/reader.ts'

/** The line a maker holds a ruler to. */
const LINE_MM = 50
const KEY = 'label-ruler'

const kept = (): string => {
  try {
    return localStorage.getItem(KEY) ?? ''
  } catch {
    return ''
  }
}

/** What the line measured on this screen, as typed; empty where nobody has measured it. */
const ruler = signal(kept())
const measure = (typed: string): void => {
  ruler.value = typed
  try {
    localStorage.setItem(KEY, typed)
  } catch {
    // It holds as long as the page.
  }
}
const measured = (typed: string): number | undefined => {
  const read = typed.trim() === '' ? undefined : readPlain(typed)
  return read?.ok && read.value >= LINE_MM / 3 && read.value <= LINE_MM * 3 ? read.value : undefined
}

/** The label as large as it is, by a line that is held against a ruler. */
export function RealSize({
  svg,
  widthMm,
  heightMm,
  spoken,
}: {
  svg: string
  widthMm: number
  heightMm: number
  spoken: string
}) {
  const picture = useMemo(() => URL.createObjectURL(new Blob([svg], { type: 'image/svg+xml' })), [svg])
  useEffect(() => () => URL.revokeObjectURL(picture), [picture])
  const found = measured(ruler.value)
  const scale = found === undefined ? 1 : LINE_MM / found
  const wrong = ruler.value.trim() !== '' && found === undefined
  return (
    <>
      <div class="label-proof" tabIndex={0} role="region" aria-label="Proof">
        <img
          src={picture}
          alt={`Label, ${spoken}`}
          style={{ width: `${widthMm * scale}mm`, height: `${heightMm * scale}mm` }}
        />
      </div>
      <p class="hint">
        {widthMm} × {heightMm} mm.
        {found === undefined && ' A screen may show it larger or smaller; a ruler tells.'}
      </p>
      <div class="label-ruler">
        <div
          class="label-line"
          style={{ width: `${LINE_MM * scale}mm` }}
          role="img"
          aria-label={`A line of ${LINE_MM} mm`}
        />
      </div>
      {found === undefined ? (
        <TextField
          label="What this line measures on the screen"
          hint={`Hold a ruler to it. It is to be ${LINE_MM} mm; the proof is then shown in its real size.`}
          numeric
          unit="mm"
          value={ruler.value}
          onInput={measure}
          fault={
            wrong
              ? `is ${ruler.value}; allowed: a number of mm between ${Math.ceil(LINE_MM / 3)} and ${LINE_MM * 3}`
              : undefined
          }
        />
      ) : (
        <p class="actions">
          <span>The line is now {LINE_MM} mm, and the proof its real size.</span>
          <button type="button" onClick={() => measure('')}>
            Measure again
          </button>
        </p>
      )}
    </>
  )
}
