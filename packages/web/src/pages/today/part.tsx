import type { ComponentChildren } from 'preact'

/** One part of Today: a heading and its list, or what stands there when there is nothing. */
export function Part({
  head,
  none,
  stop,
  children,
}: {
  head: string
  none?: string | false
  stop?: boolean
  children: ComponentChildren
}) {
  const id = `part-${head.replaceAll(' ', '-').toLowerCase()}`
  return (
    <section aria-labelledby={id} class={stop ? 'part part-stop' : 'part'}>
      <h2 id={id}>{head}</h2>
      {none ? <p class="quiet">{none}</p> : <ul class="entries">{children}</ul>}
    </section>
  )
}
