import { signal } from '@preact/signals'
import { useEffect, useMemo } from 'preact/hooks'
import { useForm } from '../../state/form.ts'
import { useResource } from '../../state/resource.ts'
import type { BatchRecord, KitchenView } from '../../state/views.ts'
import { editable, instant, number } from '../../ui/figures.ts'
import { FormText } from '../../ui/form.tsx'
import { Caution, Faults, Shown } from '../../ui/notes.tsx'
import { blankCook, recipeTexts, stageCount, stageField } from './cook-form.ts'
import { ChannelRoles, rolesOf } from './channel-roles.tsx'
import { useFeed, type FeedView } from './feed-state.ts'
import { CloseFeed } from './live-close.tsx'
import { GrowingFile } from './live-file.tsx'
import { LivePlot } from './live-plot.tsx'
import { HowToPost, TypedReading } from './live-readings.tsx'
import { ChillAheadPart, Choices, FitFigures, Standing } from './live-result.tsx'
import { guessRole, LEAST_READINGS, useLive, type ProbeRole } from './live-state.ts'
import { PieceFields } from './piece-fields.tsx'
import { useUnitsKept } from './plan.tsx'
import { StageRows } from './stage-rows.tsx'

/** A batch while it cooks and chills: readings as they come, the twin fitted to them, what each choice from here gives. */
export function LiveCook({ batch, kitchen }: { batch: string; kitchen: KitchenView }) {
  const record = useResource<BatchRecord>(`/api/batches/${encodeURIComponent(batch)}`).value
  return (
    <Shown of={record} what="the batch">
      {(b) => <Following key={b.batch} record={b} kitchen={kitchen} />}
    </Shown>
  )
}

function Following({ record, kitchen }: { record: BatchRecord; kitchen: KitchenView }) {
  const { batch } = record
  const first = useMemo(
    () => ({
      ...blankCook(),
      ...recipeTexts(record.recipeBody),
      'piece.start': '',
      'live.start': '0',
      'live.hold': '',
    }),
    [batch],
  )
  const form = useForm(`cook-live-${batch}`, first)
  useUnitsKept(form)
  const { feed, error } = useFeed(batch)
  const said = useMemo(() => signal<Readonly<Record<string, ProbeRole>>>({}), [batch])
  const view = feed.value
  const roles = useMemo(() => rolesOf(view, guessRole, said.value), [view?.channels.join(';'), said.value])
  const tolerance = kitchen.instruments
    .filter((i) => (i.type === 'logger' || i.type === 'thermometer') && !i.retired)
    .reduce((m, i) => Math.max(m, i.toleranceC ?? 0), 0)
  const live = useLive(form, view, roles, tolerance)
  useEffect(() => {
    form.faults.value = live.faults.value
  }, [live.faults.value])
  const start = Number((form.values.value['live.start'] ?? '0').replace(',', '.')) || 0
  const shown = live.shown.value
  const current = shown?.result.current
  const nextStage = (): void => {
    if (!shown || current === undefined) return
    // The running stage ends now: its length is what went by since the stages before it ended.
    const before = shown.request.piece.stages.slice(0, current).reduce((s, stage) => s + (stage.minutes ?? 0), 0)
    form.replace({
      ...form.values.value,
      [stageField(current, 'minutes')]: editable(Math.max(1, Math.round(shown.result.nowMinute - before))),
      [stageField(current, 'untilCoreC')]: '',
    })
  }
  const open = view?.open === true
  return (
    <>
      <div class="head-line">
        <h1>
          <a href={`/batches/${encodeURIComponent(batch)}`}>{batch}</a> while it runs{' '}
          <span class="where">{record.recipeName}</span>
        </h1>
        <span role="status" class="quiet">
          {live.busy.value ? 'Fitting…' : open ? `${view.count} readings since ${instant(view.origin)}` : ''}
        </span>
      </div>
      <Faults error={error.value} />
      <Caution>Only a measured core against a published limit releases a batch. What is ahead is a prediction.</Caution>
      <div class="two live">
        <div>
          {shown && open && <Standing shown={shown} />}
          <TypedReading batch={batch} />
          {open ? (
            <LivePlot feed={view} roles={roles} start={start} shown={shown} batch={batch} />
          ) : (
            <p class="empty">No reading yet. Type one, choose the logger’s file, or post them.</p>
          )}
          {open && !shown && view.count > 0 && <Waiting view={view} />}
          {shown && open && (
            <>
              <ChillAheadPart shown={shown} />
              <Choices shown={shown} />
              {!shown.result.cooling && (
                <FormText form={form} name="live.hold" label="Another hold" numeric unit="min" />
              )}
              <FitFigures shown={shown} />
            </>
          )}
          {open && <CloseFeed batch={batch} feed={view} roles={roles} kitchen={kitchen} />}
        </div>
        <div>
          <h2 class="first">Where the readings come from</h2>
          {open && (
            <ChannelRoles view={view} roles={roles} onSay={(c, role) => (said.value = { ...said.value, [c]: role })} />
          )}
          <GrowingFile batch={batch} offsetMinutes={0} />
          <HowToPost batch={batch} />
          <h2>The piece and the stages as they run</h2>
          <p class="hint">Change a stage to what the house really did: the fit takes the stages as they stand here.</p>
          <div class="stage-row">
            <FormText
              form={form}
              name="live.start"
              label="First stage began at"
              numeric
              unit="min"
              hint="minute of the readings"
            />
            <button
              type="button"
              disabled={current === undefined || current >= stageCount(form.values.value) - 1}
              onClick={nextStage}
            >
              The next stage begins now
            </button>
          </div>
          <PieceFields form={form} startHint="Empty: as first read." />
          <StageRows form={form} {...(current === undefined ? {} : { running: current })} />
        </div>
      </div>
    </>
  )
}

function Waiting({ view }: { view: FeedView }) {
  return (
    <p class="quiet">
      {number(view.count, 4)} readings; the fit begins with {LEAST_READINGS} of a core.
    </p>
  )
}
