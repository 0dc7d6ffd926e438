import { markName } from './words.ts'

export type CitedSource = { document: string; section: string; edition: string; url?: string; mark?: string }

/** A source as it would be looked up, with how it was read. */
export function Citation({ source }: { source: CitedSource }) {
  return (
    <span class="citation">
      {source.document}, {source.section} ({source.edition})
      {source.mark && <span class="quiet"> · {markName(source.mark)}</span>}
      {source.url && (
        <>
          {' · '}
          <a href={source.url} target="_blank" rel="noreferrer">
            open the source
          </a>
        </>
      )}
    </span>
  )
}
