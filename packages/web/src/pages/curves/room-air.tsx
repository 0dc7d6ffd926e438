import { useMemo } from 'preact/hooks'
import { CurvePlot } from '../../plot/curve-plot.tsx'
import { humidityAxis } from '../../plot/humidity-axis.ts'
import type { PlotPicture } from '../../plot/model.ts'
import { system } from '../../state/who.ts'
import type { RoomLog } from '../../work/curve-job.ts'
import { degreeUnit, shownC } from '../slow/lines.ts'
import { PlotTable } from '../slow/plot-table.tsx'

/** The log of a chamber or a room: its air drawn; what it means is judged with the batch it is attached to. */
export function RoomAir({ room, name }: { room: RoomLog; name: string }) {
  const us = system.value
  const picture = useMemo(
    (): PlotPicture => ({
      title: `Air of ${name}`,
      temperatureUnit: degreeUnit(),
      minutes: room.minutes,
      series: room.columns.map(({ name: column, moist, values }) => ({
        name: column,
        kind: moist ? 'house' : 'core',
        ...(moist ? { right: true as const } : {}),
        values: moist ? values : values.map((v) => (v === null ? null : shownC(v))),
      })),
      limits: [],
      windows: [],
      rightAxis: humidityAxis(room.columns.flatMap((c) => (c.moist ? c.values : []))),
    }),
    [room, name, us],
  )
  return (
    <>
      <p>
        The log of a chamber or a room, with no core in it: attach it to a batch as its fermentation or its drying, and
        it is judged there.
      </p>
      <CurvePlot {...picture} />
      <PlotTable picture={picture} what="Air" />
    </>
  )
}
