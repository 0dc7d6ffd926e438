import { publicText } from '@forcemeat/rulebook/public-text'
import { markName } from './words.ts'

export type CitedSource = {
  document: string
  section: string
  edition: string
  url?: string | undefined
  mark?: string | undefined
}

/** A source as it would be looked up, with how it was read. */
export function Citation({ source, jurisdiction }: { source: CitedSource; jurisdiction?: string }) {
  const url = publicText(source, jurisdiction)
  const isText = source.mark !== 'common-practice' && source.mark !== 'computed'
  return (
    <span class="citation">
      {source.document}, {source.section} ({source.edition})
      {source.mark && <span class="quiet"> · {markName(source.mark)}</span>}
      {url ? (
        <>
          {' · '}
          <a href={url} target="_blank" rel="noreferrer">
            open the source
          </a>
        </>
      ) : (
        isText && <span class="quiet"> · no public text to open</span>
      )}
    </span>
  )
}
