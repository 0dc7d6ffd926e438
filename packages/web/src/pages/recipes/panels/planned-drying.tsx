import { useMemo } from 'preact/hooks'
import type { Drying } from '@forcemeat/craft/dry/outlook'
import type { DryingOf } from '@forcemeat/craft/recipe/ferment-dry/drying-of'
import { number, percent } from '../../../ui/figures.ts'
import { Caution } from '../../../ui/notes.tsx'
import { Working } from '../../../ui/working.tsx'
import { CrustRisk } from '../../slow/crust.tsx'
import { DryPlots, type DryDrawn } from '../../slow/dry-plots.tsx'
import { decidingWords } from '../../slow/deciding.ts'
import { ReadyDate } from '../../slow/dry-ready.tsx'
import { useCourse } from '../../slow/use-course.ts'
import { Told } from './panel.tsx'

/** Midnight of this screen's day: the plan is shown as if it were stuffed today. */
const todayMs = (): number => new Date().setHours(0, 0, 0, 0)

type Props = { name: string; drying: Extract<DryingOf, { known: true }>; stale: boolean }

/** The course the recipe's composition, casing and stages plan, reckoned off the page's thread and drawn. */
export function PlannedDrying({ name, drying, stale }: Props) {
  const { course: asked, notes, atLoss, lossForAw, lossForMoistureToProtein } = drying
  // A key typed in another field leaves the drying as it was, and nothing is reckoned anew.
  const key = JSON.stringify(asked)
  const piece = useMemo(
    (): Drying => ({
      diameterMm: asked.diameterMm,
      composition: asked.composition,
      target: asked.target,
      planned: asked.stages,
      log: [],
      losses: [],
    }),
    [key],
  )
  const { result, busy, faults } = useCourse(piece, undefined)
  const start = useMemo(todayMs, [])
  const found = result.value
  const drawn = useMemo(
    (): DryDrawn | undefined =>
      found && { title: name, start, course: found.course, target: piece.target, losses: [], aws: [] },
    [found, name, start],
  )
  const [unproven, ...warnings] = found?.course.warnings ?? []
  return (
    <>
      <h3>Drying, as if stuffed today</h3>
      <Told
        rows={[
          ['Water activity at the loss, computed', number(atLoss.aw, 3)],
          ['Moisture to protein at the loss', number(atLoss.moistureToProtein, 3)],
          ...(lossForAw === undefined
            ? []
            : ([['Loss for the water activity wanted, computed', percent(lossForAw)]] as const)),
          ...(lossForMoistureToProtein === undefined
            ? []
            : ([['Loss for the moisture to protein wanted', percent(lossForMoistureToProtein)]] as const)),
        ]}
      />
      {notes.map((n) => (
        <p class="hint" key={n}>
          {n}.
        </p>
      ))}
      <p role="status" class="quiet" data-ms={found ? Math.round(found.ms) : ''}>
        {busy.value ? 'Reckoning the course…' : ''}
      </p>
      {faults.value.map((f) => (
        <p class="fault" key={f.path + f.message}>
          {f.path} {f.message}
        </p>
      ))}
      {found && drawn && (
        <div class={stale || faults.value.length > 0 ? 'stale' : undefined}>
          <ReadyDate
            start={start}
            ready={found.course.readyDay}
            fitted={found.course.factors.fitted}
            waits={decidingWords(found.course, drawn.target)}
          />
          {unproven && <Caution>{unproven}.</Caution>}
          <DryPlots drawn={drawn} />
          <CrustRisk risk={found.course.crustRisk} fromDay={0} start={start} />
          {warnings.map((w) => (
            <p class="hint" key={w}>
              {w}.
            </p>
          ))}
          <Working figure="Working" steps={found.course.working} />
        </div>
      )}
    </>
  )
}
