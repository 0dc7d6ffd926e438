import { describe, expect, it } from 'vitest'
import type { PlotPicture } from '../src/plot/model.ts'
import { plotSvg } from '../src/plot/svg.ts'

const picture: PlotPicture = {
  title: 'Batch <1> & its "core"',
  minutes: [0, 60, 120, 180],
  series: [
    { name: 'Core', kind: 'core', values: [8, 40, null, 70] },
    { name: 'Lethality', kind: 'lethality', values: [0, 0, 3, 40] },
  ],
  limits: [{ label: 'core target 71 °C', value: 71, stops: true }],
  windows: [{ label: '54 to 27 °C: 95 of 90 min', fromMinute: 60, toMinute: 155, verdict: 'fail' }],
  marks: [{ label: 'now', minute: 90, strong: true }],
  temperatureUnit: '°C',
}
const size = { width: 1200, height: 600 }

describe('a plot as a picture', () => {
  const svg = plotSvg(picture, size)

  it('names its axes with their units, its limits, its windows, its marks and its series', () => {
    for (const words of [
      '°C',
      'hours : minutes',
      'log',
      'core target 71 °C',
      '95 of 90 min',
      'now',
      'Core',
      'Lethality, log',
    ])
      expect(svg).toContain(`${words}</text>`)
  })

  it('is well formed whatever a title holds, and loads nothing', () => {
    expect(svg).toContain('Batch &lt;1&gt; &amp; its &quot;core&quot;')
    expect(svg).not.toMatch(/href|<script|<style|<image|NaN|undefined/)
    const opened = [...svg.matchAll(/<(svg|g|text|title|clipPath)\b/g)].length
    expect([...svg.matchAll(/<\/(svg|g|text|title|clipPath)>/g)]).toHaveLength(opened)
  })

  it('leaves a gap where there is no reading', () => {
    const core = /<path d="(M[^"]*)" fill="none" stroke="#1d1a16" stroke-width="2.5"/.exec(svg)![1]!
    expect(core.match(/M/g)).toHaveLength(2)
  })

  it('draws the part of the time that is shown', () => {
    const part = plotSvg(picture, { ...size, from: 60, to: 120 })
    expect(part).toContain('1:30</text>')
    expect(part).not.toContain('3:00</text>')
  })

  it('stands up to a plot of one reading and of none', () => {
    expect(
      plotSvg({ ...picture, minutes: [5], series: [{ name: 'Core', kind: 'core', values: [8] }] }, size),
    ).not.toContain('NaN')
    expect(plotSvg({ ...picture, minutes: [], series: [], limits: [] }, size)).not.toContain('NaN')
  })
})
