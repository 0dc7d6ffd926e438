import { signal } from '@preact/signals'
import { useEffect, useMemo } from 'preact/hooks'
import type { Answers, Role } from '@forcemeat/craft/log/format'
import type { Finding } from '@forcemeat/craft/finding'
import type { CoolingProduct } from '@forcemeat/craft/heat/chill'
import type { LethalityProduct } from '@forcemeat/craft/heat/lethality'
import { useResource } from '../../state/resource.ts'
import { Shown } from '../../ui/notes.tsx'
import { readCurve } from '../../work/curve-client.ts'
import type { CurveResult } from '../../work/curve-job.ts'
import { HowRead } from './reading.tsx'
import { Result } from './result.tsx'

type Curve = {
  seq: number
  file: string
  fileName: string
  purpose: string
  reading: { delimiter?: string; decimal?: '.' | ','; unit?: 'C' | 'F'; dateOrder?: string }
  channels: { column: string; role: string }[]
}
type BatchView = {
  batch: string
  recipeName: string
  curves: Curve[]
  findings: Finding[]
  product?: { lethality: LethalityProduct; cooling: CoolingProduct }
}

const said = ({ reading, channels }: Curve): Answers => ({
  ...(reading.delimiter ? { delimiter: reading.delimiter } : {}),
  ...(reading.decimal ? { decimal: reading.decimal } : {}),
  ...(reading.unit ? { unit: reading.unit } : {}),
  ...(reading.dateOrder ? { dateOrder: reading.dateOrder.toLowerCase() as 'dmy' } : {}),
  roles: Object.fromEntries(
    channels.map((c) => [c.column, (c.role === 'core' || c.role === 'house' ? c.role : 'other') as Role]),
  ),
})

function Drawn({ view, curve }: { view: BatchView; curve: Curve }) {
  const result = useMemo(() => signal<CurveResult | undefined>(undefined), [curve.file])
  const trouble = useMemo(() => signal(''), [curve.file])
  useEffect(() => {
    let stale = false
    const work = async () => {
      const answer = await fetch(`/api/files/${curve.file}`)
      if (!answer.ok) throw new Error(`the file is not in the record (${answer.status})`)
      const bytes = new Uint8Array(await answer.arrayBuffer())
      const options = {
        product: view.product?.lethality ?? { species: 'meat' as const },
        cooling: view.product?.cooling ?? { cured: false },
      }
      const found = await readCurve({ bytes, answers: said(curve), options })
      if (!stale) result.value = found
    }
    work().catch((error: unknown) => {
      if (!stale) trouble.value = (error as Error).message
    })
    return () => {
      stale = true
    }
  }, [curve.file])
  if (trouble.value)
    return (
      <div class="faults" role="alert">
        {trouble.value}
      </div>
    )
  if (!result.value) return <p role="status">Reading {curve.fileName}…</p>
  // What counts for the batch is judged by the server, instruments and all; the file alone only gives the picture.
  const judged = {
    ...result.value.judged,
    findings: view.findings.filter((f) => result.value!.judged.findings.some((g) => g.rule === f.rule)),
  }
  return (
    <>
      <Result
        result={{ ...result.value, judged: judged.findings.length > 0 ? judged : result.value.judged }}
        name={curve.fileName}
      />
      <HowRead judged={result.value.judged} />
    </>
  )
}

/** A curve as the batch's record holds it. */
export function RecordedCurve({ batch, seq }: { batch: string; seq: string }) {
  const view = useResource<BatchView>(`/api/batches/${encodeURIComponent(batch)}`).value
  return (
    <>
      <h1>
        Curve of <a href={`/batches/${encodeURIComponent(batch)}`}>{batch}</a>
      </h1>
      <Shown of={view} what="the batch">
        {(v) => {
          const curve = v.curves.find((c) => String(c.seq) === seq)
          return curve ? (
            <Drawn view={v} curve={curve} />
          ) : (
            <p role="alert">The batch has no curve with entry number {seq}.</p>
          )
        }}
      </Shown>
    </>
  )
}
