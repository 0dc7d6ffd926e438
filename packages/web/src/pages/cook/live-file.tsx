import { signal } from '@preact/signals'
import { useEffect, useId, useMemo } from 'preact/hooks'
import type { Answers, Question } from '@forcemeat/craft/log/format'
import { Refused } from '../../api.ts'
import { ChoiceField } from '../../ui/field.tsx'
import { CookRefused, cookLine } from '../../work/cook-client.ts'
import { sendReadings } from './feed-state.ts'

/** A handle of a file this page may read again and again, where the browser has such. */
type Watched = { readonly name: string; readonly getFile: () => Promise<File> }
type Picker = (options?: object) => Promise<Watched[]>
const picker = (): Picker | undefined => (window as unknown as { showOpenFilePicker?: Picker }).showOpenFilePicker

const EVERY_MS = 5000
const fieldOf: Partial<Record<Question['about'], Exclude<keyof Answers, 'roles'>>> = {
  unit: 'unit',
  'date-order': 'dateOrder',
  'time-unit': 'timeUnit',
  decimal: 'decimal',
  'clock-change': 'clockChange',
}

/** The part of each temperature column, asked where the file does not say it. */
function ColumnRoles({ question, said, onSay }: { question: Question; said: Answers; onSay: (more: Answers) => void }) {
  return (
    <div class="stage-row">
      <p>{question.text}</p>
      {question.choices.map((column) => (
        <ChoiceField
          key={column}
          label={`${column} is`}
          value={said.roles?.[column] ?? ''}
          options={[
            { value: '', label: 'choose' },
            { value: 'core', label: 'a core' },
            { value: 'house', label: 'the house' },
            { value: 'other', label: 'not used' },
          ]}
          onInput={(role) => {
            if (role !== '') onSay({ roles: { ...said.roles, [column]: role } })
          }}
        />
      ))}
    </div>
  )
}

/** A logger's file that grows: watched where the browser can, else chosen again; what is new in it goes to the feed. */
export function GrowingFile({ batch, offsetMinutes }: { batch: string; offsetMinutes: number }) {
  const id = useId()
  const s = useMemo(
    () => ({
      watched: signal<Watched | undefined>(undefined),
      answers: signal<Answers>({}),
      questions: signal<readonly Question[]>([]),
      said: signal(''),
      trouble: signal(''),
      last: undefined as File | undefined,
      sent: new Map<string, number>(),
      size: -1,
    }),
    [batch],
  )
  const line = useMemo(() => cookLine('read'), [])
  useEffect(() => line.stop, [])

  const take = async (file: File): Promise<void> => {
    s.last = file
    try {
      const bytes = new Uint8Array(await file.arrayBuffer())
      const { readings, questions, trouble } = await line.ask({ bytes, answers: s.answers.value, offsetMinutes })
      s.questions.value = questions
      s.trouble.value = trouble ?? ''
      if (readings.length === 0) return
      // What was sent before is not sent again; should some be, the server keeps it once.
      const fresh = [...Map.groupBy(readings, (r) => r.channel)].flatMap(([channel, all]) =>
        all.slice(s.sent.get(channel) ?? 0),
      )
      const added = fresh.length > 0 ? await sendReadings(batch, fresh) : 0
      s.sent = new Map([...Map.groupBy(readings, (r) => r.channel)].map(([channel, all]) => [channel, all.length]))
      s.size = file.size
      s.said.value = `${file.name}: ${readings.length} readings, ${added} of them new.`
    } catch (error) {
      s.trouble.value =
        error instanceof Refused || error instanceof CookRefused
          ? error.message
          : `${file.name} cannot be read any more: choose it again`
    }
  }
  useEffect(() => {
    const handle = s.watched.value
    if (!handle) return
    const look = async (): Promise<void> => {
      const file = await handle.getFile()
      if (file.size !== s.size) await take(file)
    }
    void look()
    const timer = setInterval(
      () => void look().catch(() => (s.trouble.value = `${handle.name} cannot be read any more`)),
      EVERY_MS,
    )
    return () => clearInterval(timer)
  }, [s.watched.value])
  const say = (more: Answers): void => {
    s.answers.value = { ...s.answers.value, ...more }
    if (s.last) void take(s.last)
  }
  const watch = async (): Promise<void> => {
    try {
      const [handle] = await picker()!()
      s.watched.value = handle
    } catch {
      // The person closed the picker.
    }
  }
  return (
    <details>
      <summary>Readings from a file that grows</summary>
      <div class="row">
        {picker() && (
          <button type="button" onClick={() => void watch()}>
            {s.watched.value ? `Watching ${s.watched.value.name}` : 'Watch a file'}
          </button>
        )}
        <span>
          <label for={id}>{picker() ? 'or choose it now and again' : 'Choose it now and again'}</label>{' '}
          <input
            id={id}
            type="file"
            onChange={(e) => {
              const file = e.currentTarget.files?.[0]
              if (file) void take(file)
              // So that the same file, grown, can be chosen again.
              e.currentTarget.value = ''
            }}
          />
        </span>
      </div>
      {s.questions.value.map((q) => {
        const field = fieldOf[q.about]
        if (q.about === 'roles') return <ColumnRoles key={q.about} question={q} said={s.answers.value} onSay={say} />
        return field && q.choices.length > 0 ? (
          <ChoiceField
            key={q.about}
            label={q.text}
            value={s.answers.value[field] ?? ''}
            options={[{ value: '', label: 'choose' }, ...q.choices.map((c) => ({ value: c, label: c }))]}
            onInput={(v) => say({ [field]: v })}
          />
        ) : (
          <p key={q.about}>{q.text}</p>
        )
      })}
      <p role="status">{s.said.value}</p>
      {s.trouble.value && (
        <div class="faults" role="alert">
          {s.trouble.value}
        </div>
      )}
    </details>
  )
}
