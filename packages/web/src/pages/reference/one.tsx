import { useResource } from '../../state/resource.ts'
import { Shown } from '../../ui/notes.tsx'
import { Citation, type CitedSource } from '../../ui/citation.tsx'
import { SchemaTable, type Schema } from './schema-table.tsx'
import { TryIt } from './try-it.tsx'

type Calc = {
  name: string
  title: string
  summary: string
  input: Schema
  output: Schema
  sources: readonly CitedSource[]
  example: unknown
}

export function OneCalculation({ name }: { name: string }) {
  const calc = useResource<Calc>(`/api/calc/${encodeURIComponent(name)}`)
  return (
    <>
      <p>
        <a href="/reference">All calculations</a>
      </p>
      <Shown of={calc.value} what="the calculation">
        {(c) => (
          <>
            <h1>{c.title}</h1>
            <p>
              <code>{c.name}</code>
            </p>
            <p>{c.summary}</p>
            <h2>Try it</h2>
            <TryIt name={c.name} schema={c.input} example={c.example} />
            <h2>What goes in</h2>
            <SchemaTable schema={c.input} caption={`Input of ${c.name}`} />
            <h2>What comes out</h2>
            <SchemaTable schema={c.output} caption={`Output of ${c.name}`} />
            <h2>Sources</h2>
            <ul>
              {c.sources.map((s) => (
                <li key={s.document + s.section}>
                  <Citation source={s} />
                </li>
              ))}
            </ul>
          </>
        )}
      </Shown>
    </>
  )
}
