import { signal } from '@preact/signals'
import { useId, useMemo } from 'preact/hooks'
import { open, trouble } from './state.ts'

/** Most a browser takes here at once; the command line streams files of any size. */
const MOST_BYTES = 256 * 1024 * 1024

async function take(list: FileList | null | undefined): Promise<void> {
  const chosen = list?.[0]
  if (!chosen) return
  if (chosen.size > MOST_BYTES) {
    trouble.value = `${chosen.name} is larger than ${MOST_BYTES / 2 ** 20} MB: judge it with the command line, which streams it`
    return
  }
  open({ name: chosen.name, bytes: new Uint8Array(await chosen.arrayBuffer()) })
}

/** A place to drop a logger's file on, or to choose one. */
export function Drop() {
  const id = useId()
  const over = useMemo(() => signal(false), [])
  return (
    <div
      class={over.value ? 'drop drop-over' : 'drop'}
      onDragOver={(e) => {
        e.preventDefault()
        over.value = true
      }}
      onDragLeave={() => (over.value = false)}
      onDrop={(e) => {
        e.preventDefault()
        over.value = false
        void take(e.dataTransfer?.files)
      }}
    >
      <label for={id}>Logger file</label>
      <input
        id={id}
        type="file"
        accept=".csv,.txt,.tsv,.log,text/*"
        onChange={(e) => void take(e.currentTarget.files)}
      />
      <p class="hint">
        Drop it here or choose it: any delimiter, °C or °F, one probe or many. It is read in this browser; only
        attaching it sends it to the record.
      </p>
    </div>
  )
}
