import type { Answers, LogFormat, Question } from '@forcemeat/craft/log/format'
import type { LogJudgement } from '@forcemeat/craft/log/judge-log'
import { ChoiceField } from '../../ui/field.tsx'
import { number } from '../../ui/figures.ts'
import { choices } from '../../ui/log-answers.ts'
import { answers, judgeOpenFile } from './state.ts'

const delimiters: Readonly<Record<string, string>> = {
  ',': 'comma',
  ';': 'semicolon',
  '\t': 'tab',
  '|': 'bar',
  ' ': 'space',
}

const forms: Readonly<Record<LogFormat['time']['form'], string>> = {
  ymd: 'date, year first',
  dmy: 'date, day first',
  mdy: 'date, month first',
  'epoch-s': 'seconds since 1970',
  'epoch-ms': 'milliseconds since 1970',
  'serial-days': 'day numbers of a spreadsheet',
  'elapsed-hms': 'time from the start, h:mm:ss',
  'elapsed-ms': 'time from the start, mm:ss',
  clock: 'clock time',
  'elapsed-seconds': 'seconds from the start',
  'elapsed-minutes': 'minutes from the start',
  'elapsed-hours': 'hours from the start',
}

const say = (next: Partial<Answers>): void => {
  answers.value = { ...answers.value, ...next }
  void judgeOpenFile()
}

const field: Readonly<Partial<Record<Question['about'], keyof Answers>>> = {
  'date-order': 'dateOrder',
  unit: 'unit',
  'time-unit': 'timeUnit',
  decimal: 'decimal',
  'clock-change': 'clockChange',
}

function Roles({ question }: { question: Question }) {
  const said = answers.value.roles ?? {}
  return (
    <fieldset class="roles">
      <legend>{question.text}</legend>
      {question.choices.map((name) => (
        <ChoiceField
          key={name}
          label={name}
          value={said[name] ?? 'other'}
          options={[
            { value: 'core', label: 'core probe' },
            { value: 'house', label: 'house, chamber or room' },
            { value: 'other', label: 'neither' },
          ]}
          onInput={(role) => say({ roles: { ...said, [name]: role } })}
        />
      ))}
    </fieldset>
  )
}

/** What the file does not say, one question each; nothing is judged until all are answered. */
export function Questions({ questions }: { questions: readonly Question[] }) {
  if (questions.length === 0) return null
  return (
    <section aria-label="Questions about the file">
      <h2>The file does not say</h2>
      {questions.map((q) => {
        const name = field[q.about]
        if (q.about === 'roles') return <Roles key={q.about} question={q} />
        if (!name || q.choices.length === 0) return <p key={q.about}>{q.text}</p>
        return (
          <ChoiceField
            key={q.about}
            label={q.text}
            value={typeof answers.value[name] === 'string' ? answers.value[name] : ''}
            options={[{ value: '', label: 'choose' }, ...q.choices.map((c) => ({ value: c, label: choices[c] ?? c }))]}
            onInput={(value) => value && say({ [name]: value })}
          />
        )
      })}
    </section>
  )
}

const anomalyWords: Readonly<Record<string, string>> = {
  'not-a-reading': 'cells that are no reading',
  'no-reading': 'empty readings',
  'out-of-range': 'readings no probe gives',
  'bad-time': 'times that cannot be read',
  'repeated-time': 'times that repeat',
  'out-of-order': 'rows out of order',
  'clock-back': 'clock set back',
  'clock-forward': 'clock set forward',
  gap: 'gaps',
  'short-row': 'rows cut short',
}

function Anomalies({ report }: { report: LogJudgement['anomalies'] }) {
  const kinds = Object.entries(report.counts)
  if (kinds.length === 0) return <p>Every row was a plain reading.</p>
  return (
    <details>
      <summary>{kinds.map(([kind, n]) => `${n} ${anomalyWords[kind] ?? kind}`).join(', ')}</summary>
      <ul>
        {report.listed.slice(0, 40).map((a) => (
          <li key={`${a.row}-${a.kind}-${a.column ?? ''}`}>
            row {a.row}
            {a.column ? `, ${a.column}` : ''}: {anomalyWords[a.kind] ?? a.kind}
            {a.text ? ` “${a.text}”` : ''}
          </li>
        ))}
      </ul>
    </details>
  )
}

/** How the program read the file, so that a person can see at a glance if it read it wrong. */
export function HowRead({ judged }: { judged: Pick<LogJudgement, 'format' | 'notes' | 'rows' | 'anomalies'> }) {
  const { format } = judged
  if (!format) return null
  return (
    <section aria-label="How the file was read">
      <h2>How it was read</h2>
      <dl class="facts">
        <dt>Columns split by</dt>
        <dd>
          {delimiters[format.delimiter] ?? format.delimiter}, decimal {format.decimal === ',' ? 'comma' : 'point'}
        </dd>
        <dt>Time</dt>
        <dd>
          {forms[format.time.form]}
          {format.stepMinutes === undefined ? '' : `, a row every ${number(format.stepMinutes, 3)} min`}
        </dd>
        <dt>Temperatures</dt>
        <dd>
          {format.channels
            .map((c) => `${c.name} (°${c.unit}, ${c.role === 'other' ? 'not used' : c.role})`)
            .join('; ') || 'none'}
        </dd>
        {format.humidity && (
          <>
            <dt>Humidity</dt>
            <dd>{format.humidity.map((c) => `${c.name} (% RH)`).join('; ')}</dd>
          </>
        )}
        <dt>Rows</dt>
        <dd>{judged.rows}</dd>
      </dl>
      {judged.notes.map((n) => (
        <p key={n} class="quiet">
          {n}
        </p>
      ))}
      {judged.rows > 0 && <Anomalies report={judged.anomalies} />}
    </section>
  )
}
