import type { DryView } from '@forcemeat/server/slow/dry-view'
import { useMemo } from 'preact/hooks'
import { HOW_COURSE_WAS_CHECKED } from '@forcemeat/craft/dry/how-checked'
import type { Drying } from '@forcemeat/craft/dry/outlook'
import type { KitchenView } from '../../state/views.ts'
import { number } from '../../ui/figures.ts'
import { Caution, Shown } from '../../ui/notes.tsx'
import { Findings } from '../../ui/verdict.tsx'
import { Working } from '../../ui/working.tsx'
import { useNow } from './clock-now.ts'
import { ByHand } from './chamber-by-hand.tsx'
import { CrustRisk } from './crust.tsx'
import { allMet, Measured, Met, StandingNow, Weighings } from './dry-figures.tsx'
import { decidingWords } from './deciding.ts'
import { DryPlots, RoomPlot, type DryDrawn } from './dry-plots.tsx'
import { Forecasts, ReadyDate } from './dry-ready.tsx'
import { inDegrees } from './lines.ts'
import { PieceForm } from './piece-form.tsx'
import { ProductForm } from './product-form.tsx'
import { useCourse, useForecasts } from './use-course.ts'
import { useSlowView } from './use-view.ts'
import { useWhatIf, WhatIfPart } from './what-if.tsx'
import { paper } from '../../ui/paper.ts'

const DAY = 86_400_000
/** Every reading that comes in changes the hour it falls in, and the course with it; a drying takes weeks. */
const FED_EVERY_MS = 15_000

/** What the course takes, the same object as long as the record says the same, so that it is not reckoned for nothing. */
function useDrying(view: DryView): Drying | undefined {
  const { piece, left: target, planned, log, marked } = view
  const text = JSON.stringify([piece, target, planned, log, marked.losses])
  return useMemo(() => piece && { ...piece, target, planned, log, losses: marked.losses }, [text])
}

export const HowChecked = () => (
  <Caution>
    The course is a model, {HOW_COURSE_WAS_CHECKED}. A date to plan by, never a reason to release: the end is told by
    weighed pieces and a checked meter against a published limit.
  </Caution>
)

function Missing({ view }: { view: DryView }) {
  return (
    <div class="empty">
      <p>No course can be reckoned; what is missing:</p>
      <ul>
        {view.missing.map((m) => (
          <li key={m}>{m}</li>
        ))}
      </ul>
      <p>
        <a href={`/recipes/${encodeURIComponent(view.recipe)}`}>Enter it in the recipe</a>. Weights and readings are
        kept meanwhile.
      </p>
    </div>
  )
}

function Body({ view, kitchen }: { view: DryView; kitchen: KitchenView }) {
  const now = useNow()
  const start = Date.parse(view.start)
  const nowDay = Math.max(0, (now - start) / DAY)
  const drying = useDrying(view)
  const tried = useWhatIf(nowDay)
  const { result, busy, faults } = useCourse(drying, tried.change)
  const forecasts = useForecasts(drying)
  const found = result.value
  const drawn = useMemo(
    (): DryDrawn | undefined =>
      found && {
        title: `batch ${view.batch}`,
        start,
        course: found.course,
        ...(tried.change && found.changed ? { changed: found.changed } : {}),
        target: view.target,
        left: view.left,
        nowDay: Math.round(nowDay * 48) / 48,
        losses: view.marked.losses,
        aws: view.aws,
      },
    [found, tried.change, view, Math.round(nowDay * 48)],
  )
  const due = Math.min(12, view.marked.losses.length)
  return (
    <>
      <Met view={view} start={start} />
      {found && !allMet(view) && (
        <ReadyDate
          start={start}
          ready={found.course.readyDay}
          fitted={found.course.factors.fitted}
          waits={decidingWords(found.course, view.left)}
        />
      )}
      <p role="status" class="quiet" data-ms={found ? Math.round(found.ms) : ''}>
        {busy.value ? 'Reckoning the course…' : ''}
      </p>
      {faults.value.length > 0 && (
        <div class="faults" role="alert">
          {faults.value.map((f) => (
            <p key={f.path + f.message}>
              {f.path} {f.message}
            </p>
          ))}
        </div>
      )}
      {!view.piece && <Missing view={view} />}
      <HowChecked />
      <div class="two live">
        <div>
          {drawn && <DryPlots drawn={drawn} />}
          {found && (
            <RoomPlot
              title={`batch ${view.batch}`}
              log={view.log}
              stages={found.stages}
              nowDay={Math.round(nowDay * 48) / 48}
            />
          )}
        </div>
        <div>
          {found && (
            <WhatIfPart
              tried={tried}
              result={found}
              start={start}
              fromDay={nowDay}
              asked={Object.keys(view.left).length > 0}
            />
          )}
          <h2>Weigh the marked pieces</h2>
          <PieceForm batch={view.batch} kitchen={kitchen} starts={view.marked.starts} />
          <ByHand batch={view.batch} live={false} kitchen={kitchen} purpose="dry" />
          {found && <StandingNow course={found.course} day={nowDay} target={view.target} />}
          {found && <CrustRisk risk={found.course.crustRisk} fromDay={nowDay} start={start} />}
        </div>
      </div>
      <Forecasts start={start} forecasts={forecasts.value} due={due} />
      <Weighings view={view} />
      <section>
        <h2>Measured in the product</h2>
        <Measured view={view} course={found?.course} />
        <ProductForm batch={view.batch} kitchen={kitchen} />
      </section>
      <section>
        <h2>Findings</h2>
        <Findings findings={view.findings} />
      </section>
      <section>
        <h2>What the course rests on</h2>
        <ul>
          <li>Day 0 is {view.startFrom}.</li>
          {view.notes.map((n) => (
            <li key={n}>{inDegrees(n)}</li>
          ))}
          {found && found.loggedTo !== undefined && (
            <li>The room’s log stands in for the plan to day {number(found.loggedTo, 3)}.</li>
          )}
          {found && found.filledDays > 0 && (
            <li>
              For {number(found.filledDays, 2)} days of it temperature or humidity was not logged: the planned one is
              taken.
            </li>
          )}
          {found && found.clampedDays > 0 && (
            <li>
              For {number(found.clampedDays, 2)} days the air lay outside what the model takes, and its edge is taken.
            </li>
          )}
          {(found?.course.warnings ?? [])
            .filter((w) => !(allMet(view) && w.startsWith('no target')))
            .map((w) => (
              <li key={w}>{w}</li>
            ))}
        </ul>
        {found && <Working figure="How the course is reckoned" steps={found.course.working} />}
      </section>
    </>
  )
}

/** A batch while it dries: the course fitted to its weighings, the day it is ready, and what a change of the air would do. */
export function Dry({ batch, kitchen }: { batch: string; kitchen: KitchenView }) {
  const at = encodeURIComponent(batch)
  const view = useSlowView<DryView>(batch, 'dry', FED_EVERY_MS)
  return (
    <>
      <div class="head-line">
        <h1>
          Drying of <a href={`/batches/${at}`}>{batch}</a> <span class="where">{view.value?.recipeName ?? ''}</span>
        </h1>
        <span class="head-links">
          <a class="button" href={`/curves/ferment/${at}`}>
            Its fermentation
          </a>
          <a class="button" href={paper(`drying-record/${at}`)} target="_blank" rel="noreferrer">
            Drying record, PDF
          </a>
          <a class="button" href="/curves/dry/plan">
            Plan a drying
          </a>
        </span>
      </div>
      <Shown of={view} what="the drying">
        {(v) => <Body key={v.batch} view={v} kitchen={kitchen} />}
      </Shown>
    </>
  )
}
