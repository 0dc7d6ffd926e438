import { describe, expect, it } from 'vitest'
import { rolesOf } from '../src/pages/cook/channel-roles.tsx'
import type { FeedReading, FeedView } from '../src/pages/cook/feed-state.ts'
import { guessRole, pointsOf } from '../src/pages/cook/live-state.ts'
import { humidityAxis } from '../src/plot/humidity-axis.ts'

const readings: readonly FeedReading[] = [
  { minute: 2, channel: 'core', tempC: 9 },
  { minute: 0, channel: 'core', tempC: 8 },
  { minute: 0, channel: 'house', tempC: 60 },
  { minute: 0, channel: 'house 2', rhPct: 45 },
]
const view: FeedView = { open: true, channels: ['core', 'house', 'house 2'], count: 4, readings }

describe('channels of a feed on the page', () => {
  it('that read humidity are the air’s whatever their name says, unless a person leaves them out', () => {
    expect(rolesOf(view, guessRole, {})).toEqual({ core: 'core', house: 'house', 'house 2': 'humidity' })
    expect(rolesOf(view, guessRole, { 'house 2': 'ignore' })).toMatchObject({ 'house 2': 'ignore' })
    expect(rolesOf(undefined, guessRole, {})).toEqual({})
  })

  it('give the fit temperatures in time order, and never a percent for a degree', () => {
    expect(pointsOf(readings, 'core')).toEqual([
      { minute: 0, tempC: 8 },
      { minute: 2, tempC: 9 },
    ])
    expect(pointsOf(readings, 'house 2')).toEqual([])
  })

  it('draw humidity on an axis that holds it: from 40 % on, from nothing where it was drier, over 100 where a sensor read so', () => {
    expect(humidityAxis([null, 80]).range).toEqual([40, 100])
    expect(humidityAxis([25, 80]).range).toEqual([0, 100])
    expect(humidityAxis([95, 103]).range).toEqual([40, 105])
    expect(humidityAxis([]).range).toEqual([40, 100])
  })
})
