import { signal } from '@preact/signals'
import { useMemo } from 'preact/hooks'
import { Refused, sendBytes } from '../api.ts'
import { record } from '../state/form.ts'
import { useResource } from '../state/resource.ts'
import { TextField } from './field.tsx'
import { instant } from './figures.ts'
import { Faults } from './notes.tsx'

type Photo = { readonly seq: number; readonly file: string; readonly at: string; readonly caption?: string }

const LONG_SIDE = 1600

/** A picture drawn anew as JPEG, small enough to keep: nothing of the camera's own notes, such as where it was, stays in it. */
async function redrawn(file: Blob): Promise<Blob> {
  const picture = await createImageBitmap(file)
  const scale = Math.min(1, LONG_SIDE / Math.max(picture.width, picture.height))
  const canvas = document.createElement('canvas')
  canvas.width = Math.max(1, Math.round(picture.width * scale))
  canvas.height = Math.max(1, Math.round(picture.height * scale))
  canvas.getContext('2d')!.drawImage(picture, 0, 0, canvas.width, canvas.height)
  return new Promise((resolve, reject) => {
    canvas.toBlob((blob) => (blob ? resolve(blob) : reject(new Error('no picture'))), 'image/jpeg', 0.82)
  })
}

/** Photographs of a thing, and one more to attach. */
export function Photos({ of, id }: { of: string; id: string }) {
  const found = useResource<{ photos: readonly Photo[] }>(`/api/photos/${of}/${encodeURIComponent(id)}`).value.value
  const caption = useMemo(() => signal(''), [])
  const fault = useMemo(() => signal<Refused | undefined>(undefined), [])
  const attach = async (file: File | undefined): Promise<void> => {
    if (!file) return
    fault.value = undefined
    try {
      const { sha256 } = await sendBytes<{ sha256: string }>('PUT', '/api/files', await redrawn(file))
      const text = caption.value.trim()
      await record(
        [{ kind: 'photo.attach', body: { file: sha256, of, id, ...(text ? { caption: text } : {}) } }],
        crypto.randomUUID(),
      )
      caption.value = ''
    } catch (error) {
      fault.value =
        error instanceof Refused
          ? error
          : new Refused(400, [{ path: '', message: 'is no picture this browser can read; allowed: a photograph' }])
    }
  }
  return (
    <section aria-label="Photographs">
      <h2>Photographs</h2>
      <Faults error={fault.value} />
      {found?.photos.map((p) => (
        <figure key={p.seq}>
          <img
            class="photo"
            src={`/api/photos/${p.file}`}
            alt={p.caption ?? `Photograph of ${of} ${id}`}
            loading="lazy"
          />
          <figcaption class="hint">
            {p.caption && `${p.caption}, `}
            {instant(p.at)}, <a href={`/record/${p.seq}`}>entry {p.seq}</a>
          </figcaption>
        </figure>
      ))}
      <div class="row top">
        <TextField label="What the photograph shows" value={caption.value} onInput={(v) => (caption.value = v)} />
        <label class="field">
          Photograph
          <input
            type="file"
            accept="image/*"
            onChange={(e) => {
              void attach(e.currentTarget.files?.[0])
              e.currentTarget.value = ''
            }}
          />
        </label>
      </div>
    </section>
  )
}
