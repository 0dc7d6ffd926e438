import { decimal as own } from '../../ui/figures.ts'

type Mark = '.' | ','
type Cell = {
  readonly cell: string
  readonly column: string
  readonly text: string
  readonly point?: number
  readonly comma?: number
}
/** The decimal mark a file is read with, or the question which it is. */
export type DecimalReading =
  | { readonly mark: Mark; readonly from: 'told' | 'cells' | 'any'; readonly cells: readonly Cell[] }
  | { readonly ask: 'ambiguous' | 'contradict'; readonly cells: readonly Cell[] }

const names: Readonly<Record<Mark, string>> = { '.': 'decimal point', ',': 'decimal comma' }
const figure = (value: number | undefined): string =>
  value === undefined ? 'no figure' : String(value).replace('.', own)

/** How the figures of a file are read; asked where its cells do not tell or contradict each other. */
export function DecimalMark({ reading, tell }: { reading: DecimalReading; tell: (mark: Mark) => void }) {
  if ('ask' in reading) return <Question reading={reading} tell={tell} />
  if (reading.from === 'any') return null
  const other: Mark = reading.mark === '.' ? ',' : '.'
  return (
    <p class="row">
      <span>
        Figures are read with a <strong>{names[reading.mark]}</strong>,{' '}
        {reading.from === 'told'
          ? 'as you said.'
          : `as ${reading.cells.map((c) => `${c.cell} “${c.text}”`).join(', ')} can only be read.`}
      </span>
      {reading.from === 'told' && (
        <button type="button" onClick={() => tell(other)}>
          Read with a {names[other]} instead
        </button>
      )}
    </p>
  )
}

function Question({ reading, tell }: { reading: DecimalReading & { ask: string }; tell: (mark: Mark) => void }) {
  return (
    <section class="faults" role="alert" aria-labelledby="which-mark">
      <h2 id="which-mark">Which decimal mark does this file have?</h2>
      <p>
        {reading.ask === 'contradict'
          ? 'Some cells can only be read with a decimal point and some only with a decimal comma.'
          : 'Every figure that hangs on it can be read in two ways, a thousand times apart.'}{' '}
        Nothing is taken before you say; cells that do not fit the answer are named.
      </p>
      <div class="sheet" tabIndex={0} role="region" aria-label="What the answer changes">
        <table>
          <caption class="visually-hidden">What the answer changes</caption>
          <thead>
            <tr>
              <th scope="col">Cell</th>
              <th scope="col">Stands there</th>
              <th scope="col" class="num">
                Point
              </th>
              <th scope="col" class="num">
                Comma
              </th>
            </tr>
          </thead>
          <tbody>
            {reading.cells.map((c) => (
              <tr key={c.cell}>
                <th scope="row">
                  {c.cell} {c.column}
                </th>
                <td>{c.text}</td>
                <td class="num">{figure(c.point)}</td>
                <td class="num">{figure(c.comma)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <p class="actions">
        <button type="button" onClick={() => tell('.')}>
          Decimal point: 1234.5
        </button>
        <button type="button" onClick={() => tell(',')}>
          Decimal comma: 1234,5
        </button>
      </p>
    </section>
  )
}
