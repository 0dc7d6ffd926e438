import type { PageProps } from '../../app.tsx'
import { useResource } from '../../state/resource.ts'
import { LongList } from '../../ui/long-list.tsx'
import { Shown } from '../../ui/notes.tsx'
import { OneCalculation } from './one.tsx'

type Listed = { name: string; title: string; summary: string }

/** Every calculation of the program: what it takes, where it comes from, and a place to try it. */
export function Reference({ path }: PageProps) {
  const [name] = path
  return name ? <OneCalculation key={name} name={name} /> : <All />
}

function All() {
  const list = useResource<{ calculations: Listed[] }>('/api/calc')
  return (
    <>
      <h1>Reference</h1>
      <p>Every figure the program makes, with its sources. Open one to read what goes in and to try it.</p>
      <Shown of={list.value} what="the calculations">
        {({ calculations }) => (
          <LongList
            items={calculations}
            what="calculations"
            text={(c) => `${c.name} ${c.title} ${c.summary}`}
            empty="No calculation is registered."
          >
            {(shown) => (
              <ul class="entries">
                {shown.map((c) => (
                  <li key={c.name}>
                    <a class="lead" href={`/reference/${encodeURIComponent(c.name)}`}>
                      {c.title}
                    </a>{' '}
                    <code>{c.name}</code>
                    <p class="quiet">{c.summary}</p>
                  </li>
                ))}
              </ul>
            )}
          </LongList>
        )}
      </Shown>
    </>
  )
}
