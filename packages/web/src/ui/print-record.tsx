import { paper } from './paper.ts'

/** Link to everything recorded of a thing, on paper: each entry with who, when, its hash and what became of it. */
export function PrintRecord({ of, id }: { of: string; id: string }) {
  return (
    <a
      class="button"
      href={paper(`record/${of}/${encodeURIComponent(id)}`)}
      target="_blank"
      rel="noreferrer"
      aria-label={`Print the record of ${of} ${id}`}
    >
      Print the record of this
    </a>
  )
}
