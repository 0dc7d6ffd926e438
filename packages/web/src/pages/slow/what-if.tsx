import { signal, type Signal } from '@preact/signals'
import { useMemo } from 'preact/hooks'
import type { AirChange } from '@forcemeat/craft/dry/outlook'
import { readPlain } from '../../state/reader.ts'
import { system } from '../../state/who.ts'
import { ChoiceField, TextField } from '../../ui/field.tsx'
import { editable } from '../../ui/figures.ts'
import type { CourseResult } from '../../work/dry-course.ts'
import { CrustLine } from './crust.tsx'
import { readyWords } from './dry-ready.tsx'

type Typed = { readonly rh: Signal<string>; readonly temp: Signal<string>; readonly speed: Signal<string> }

export type WhatIf = Typed & {
  readonly faults: { readonly rh?: string; readonly temp?: string }
  readonly change: AirChange | undefined
}

const MOST = { rh: 30, temp: 15 } as const

function amount(typed: string, most: number, unit: string): { value: number; fault?: string } {
  if (typed.trim() === '') return { value: 0 }
  const read = readPlain(typed)
  if (!read.ok) return { value: 0, fault: read.message }
  if (Math.abs(read.value) > most) return { value: 0, fault: `is ${read.value}; allowed: −${most} to ${most} ${unit}` }
  return { value: read.value }
}

/** What is tried from a day on; nothing where the fields are as the air is. */
export function useWhatIf(fromDay: number): WhatIf {
  const typed = useMemo((): Typed => ({ rh: signal(''), temp: signal(''), speed: signal('') }), [])
  const us = system.value === 'us'
  const rh = amount(typed.rh.value, MOST.rh, 'points')
  const temp = amount(typed.temp.value, us ? MOST.temp * 1.8 : MOST.temp, us ? '°F' : '°C')
  const tempC = us ? temp.value / 1.8 : temp.value
  const speed = typed.speed.value
  const day = Math.round(fromDay * 24) / 24
  const change = useMemo(
    (): AirChange | undefined =>
      rh.value === 0 && tempC === 0 && speed === ''
        ? undefined
        : { fromDay: day, rhPoints: rh.value, tempC, ...(speed === '' ? {} : { airSpeedMPerS: Number(speed) }) },
    [rh.value, tempC, speed, day],
  )
  return {
    ...typed,
    faults: { ...(rh.fault ? { rh: rh.fault } : {}), ...(temp.fault ? { temp: temp.fault } : {}) },
    change,
  }
}

/** A field with a button to either side, for wet hands. */
function Steps({
  label,
  of,
  unit,
  by,
  fault,
}: {
  label: string
  of: Signal<string>
  unit: string
  by: number
  fault: string | undefined
}) {
  const move = (step: number) => () => {
    const read = readPlain(of.value === '' ? '0' : of.value)
    const next = Number(((read.ok ? read.value : 0) + step).toFixed(2))
    of.value = next === 0 ? '' : editable(next)
  }
  return (
    <div class="steps">
      <button type="button" aria-label={`${label}: less`} onClick={move(-by)}>
        −
      </button>
      <TextField
        label={label}
        value={of.value}
        numeric
        unit={unit}
        placeholder="0"
        onInput={(v) => (of.value = v)}
        fault={fault}
      />
      <button type="button" aria-label={`${label}: more`} onClick={move(by)}>
        +
      </button>
    </div>
  )
}

/** "What if I raise the humidity by 4 points tonight?", answered on the plot and in words. */
export function WhatIfPart({
  tried,
  result,
  start,
  fromDay,
  asked,
}: {
  tried: WhatIf
  result: CourseResult | undefined
  start: number
  fromDay: number
  /** Whether a target is still to be met. */
  asked: boolean
}) {
  const us = system.value === 'us'
  const changed = tried.change ? result?.changed : undefined
  const [was, is] = [result?.course.readyDay, changed?.readyDay]
  const days = was && is ? is.likely - was.likely : undefined
  return (
    <section aria-label="What if the air is changed from tonight">
      <h2>What if, from tonight</h2>
      <div class="stage-row">
        <Steps label="Humidity, points" of={tried.rh} unit="points" by={1} fault={tried.faults.rh} />
        <Steps
          label="Temperature, more or less"
          of={tried.temp}
          unit={us ? '°F' : '°C'}
          by={1}
          fault={tried.faults.temp}
        />
        <ChoiceField
          label="Air past the pieces"
          value={tried.speed.value}
          options={[
            { value: '', label: 'as it is' },
            ...['0.05', '0.1', '0.2', '0.3', '0.5', '1'].map((v) => ({ value: v, label: `${v} m/s` })),
          ]}
          onInput={(v) => (tried.speed.value = v)}
        />
      </div>
      <div role="status">
        {tried.change === undefined ? (
          <p class="quiet">Change one of them, and a second course is drawn.</p>
        ) : !changed ? (
          <p class="quiet">Reckoning…</p>
        ) : (
          <>
            <p>
              <strong>
                With the change:{' '}
                {is
                  ? `ready ${readyWords(start, is)}`
                  : asked
                    ? 'the target is not met within two years'
                    : 'drawn on the plot; no target is left to be met'}
              </strong>
              {days !== undefined &&
                `, ${Math.abs(days) < 0.5 ? 'the same day' : `${Math.abs(days).toFixed(0)} days ${days > 0 ? 'later' : 'sooner'}`}.`}
            </p>
            <CrustLine risk={changed.crustRisk} fromDay={fromDay} start={start} />
          </>
        )}
      </div>
      {tried.change !== undefined && (
        <button
          type="button"
          onClick={() => {
            tried.rh.value = ''
            tried.temp.value = ''
            tried.speed.value = ''
          }}
        >
          As it is again
        </button>
      )}
    </section>
  )
}
