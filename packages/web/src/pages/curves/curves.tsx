import type { PageProps } from '../../app.tsx'
import { address } from '../../router.ts'
import { LiveCook } from '../cook/live.tsx'
import { PlanCook } from '../cook/plan.tsx'
import { Running } from '../cook/running.tsx'
import { Dry } from '../slow/dry.tsx'
import { PlanDrying } from '../slow/dry-plan.tsx'
import { Ferment } from '../slow/ferment.tsx'
import { SlowBatches } from '../slow/slow-batches.tsx'
import { Attach } from './attach.tsx'
import { Drop } from './drop.tsx'
import { ProductForm } from './product-form.tsx'
import { HowRead, Questions } from './reading.tsx'
import { RecordedCurve } from './recorded.tsx'
import { Result } from './result.tsx'
import { RoomAir } from './room-air.tsx'
import { busy, file, open, result, trouble } from './state.ts'

/** Drop a logger's file, see how it was read, how it went, and whether it meets the tables; or one of a batch's recorded curves. */
export function Curves({ path, kitchen }: PageProps) {
  const [batch, seq] = path
  if (batch === 'plan') return <PlanCook />
  if (batch === 'live' && seq) return <LiveCook key={seq} batch={seq} kitchen={kitchen} />
  if (batch === 'dry' && seq === 'plan') return <PlanDrying />
  if (batch === 'dry' && seq) return <Dry key={seq} batch={seq} kitchen={kitchen} />
  if (batch === 'ferment' && seq) return <Ferment key={seq} batch={seq} kitchen={kitchen} />
  if (batch && seq) return <RecordedCurve batch={batch} seq={seq} kitchen={kitchen} />
  const found = result.value
  const name = file.value?.name ?? ''
  const asked = address.value.query.get('batch')
  return (
    <>
      <div class="head-line">
        <h1>Curves</h1>
        <span class="head-links">
          <a class="button" href="/curves/plan">
            Plan a cook
          </a>
          <a class="button" href="/curves/dry/plan">
            Plan a drying
          </a>
        </span>
      </div>
      {asked && (
        <p>
          The file goes to batch <a href={`/batches/${encodeURIComponent(asked)}/curves`}>{asked}</a>.
        </p>
      )}
      {!file.value && (
        <>
          <p>Drop the file of a logger to see cook and chill against the published tables.</p>
          <Drop />
          <Running batch={address.value.query.get('batch') ?? ''} />
          <SlowBatches />
        </>
      )}
      {trouble.value && (
        <div class="faults" role="alert">
          {trouble.value}
        </div>
      )}
      {file.value && (
        <p class="actions">
          <strong>{name}</strong>
          <button type="button" onClick={() => open(undefined)}>
            Another file
          </button>
          <span role="status" class="quiet">
            {busy.value ? 'Reading…' : ''}
          </span>
        </p>
      )}
      {found && (
        <>
          <Questions questions={found.judged.questions} />
          {/* Nothing is asked of a file in which nothing was found. */}
          {!found.room && (found.plot || found.judged.questions.length > 0) && <ProductForm />}
          {found.room ? (
            <RoomAir room={found.room} name={name} />
          ) : found.plot ? (
            <Result result={found} name={name} />
          ) : (
            found.judged.questions.length === 0 && (
              <p role="alert">{found.judged.because ?? 'No readings were found in this file.'}</p>
            )
          )}
          <HowRead judged={found.judged} />
          {(found.plot ?? found.room) && (
            <Attach result={found} kitchen={kitchen} batch={address.value.query.get('batch') ?? ''} />
          )}
        </>
      )}
    </>
  )
}
