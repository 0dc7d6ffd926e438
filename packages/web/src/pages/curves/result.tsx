import { useMemo } from 'preact/hooks'
import { CurvePlot } from '../../plot/curve-plot.tsx'
import type { PlotLimit } from '../../plot/model.ts'
import { system } from '../../state/who.ts'
import { number, temperature } from '../../ui/figures.ts'
import { Findings, VerdictMark } from '../../ui/verdict.tsx'
import { Caution } from '../../ui/notes.tsx'
import type { CurveResult } from '../../work/curve-job.ts'
import { ReadingsTable } from './readings-table.tsx'

/** An estimate far past every target says no more by its digits. */
const SHOWN_LOG = 20

const inUnit = (c: number): number => (system.value === 'us' ? c * 1.8 + 32 : c)

const limitsToDraw = (marksC: readonly number[]): PlotLimit[] =>
  marksC.map((c) => ({ label: temperature(c), value: inUnit(c), stops: false }))

/** Peak, lethality and chill in a line each. */
function Summary({ judged }: CurveResult) {
  const { lethality, chill } = judged
  return (
    <dl class="facts">
      {lethality && (
        <>
          <dt>Peak of the core</dt>
          <dd>{temperature(lethality.peakC)}</dd>
          <dt>Log reduction, estimated</dt>
          <dd>
            {lethality.logReduction > SHOWN_LOG ? `more than ${SHOWN_LOG}` : number(lethality.logReduction, 3)} log
            Salmonella at probe {lethality.probe}, the coldest
          </dd>
        </>
      )}
      {chill && (
        <>
          <dt>Chill</dt>
          <dd>
            <VerdictMark verdict={chill.summary.verdict} /> {chill.summary.because}
          </dd>
          <dt>C. perfringens, estimated growth</dt>
          <dd>{number(chill.logGrowth, 2)} log, uncured beef, no credit for salt or nitrite</dd>
        </>
      )}
    </dl>
  )
}

/** What the limits that decide say; nothing where every one is met. */
const decides = ({ verdict, findings }: CurveResult['judged']): string =>
  verdict === 'pass'
    ? ''
    : findings
        .filter((f) => f.weight !== 'advice' && f.verdict === verdict)
        .map((f) => `${f.title}: ${f.because}`)
        .join('; ')

/** The curve drawn with its limits, the verdicts under it, the readings behind it. */
export function Result({ result, name }: { result: CurveResult; name: string }) {
  const { judged } = result
  const us = system.value === 'us'
  const data = useMemo(() => {
    if (!result.plot) return undefined
    const { minutes, series, windows, marksC } = result.plot
    const shown = series.map((s) =>
      s.kind === 'lethality' ? s : { ...s, values: s.values.map((v) => (v === null ? null : inUnit(v))) },
    )
    return { minutes, series: shown, windows, limits: limitsToDraw(marksC) }
  }, [result, us])
  return (
    <>
      <p class="standing">
        <VerdictMark verdict={judged.verdict} /> {judged.because ?? decides(judged)}
      </p>
      {data && <CurvePlot title={`Temperatures of ${name}`} temperatureUnit={us ? '°F' : '°C'} {...data} />}
      <Summary {...result} />
      <Caution>
        A log reduction is an estimate; the findings hold the log against the published tables. A qualified person and
        your local code decide.
      </Caution>
      <h2>Findings</h2>
      <Findings findings={judged.findings} />
      {data && <ReadingsTable minutes={data.minutes} series={data.series} unit={us ? '°F' : '°C'} />}
    </>
  )
}
