import type { Recipe } from '../schema.ts'
import { FORMAT, named, quoted, VERSION } from './words.ts'

type Part = Recipe['meat'][number] | Recipe['additions'][number]

const yes = (b: boolean): string => (b ? 'yes' : 'no')
const line = (key: string, ...parts: readonly (string | undefined)[]): string =>
  `${key}: ${parts.filter((p) => p !== undefined).join('; ')}`
const opt = <T>(value: T | undefined, say: (value: T) => string): string | undefined =>
  value === undefined ? undefined : say(value)

const bounds = (of: { minPct?: number | undefined; maxPct?: number | undefined }): (string | undefined)[] => [
  opt(of.minPct, (v) => `at least ${v} %`),
  opt(of.maxPct, (v) => `at most ${v} %`),
]

const part = (key: string, p: Part): string =>
  line(
    key,
    `${p.pct} % ${named(p.material)}`,
    ...bounds('minPct' in p || 'maxPct' in p ? p : {}),
    opt(p.note, (n) => `note ${quoted(n)}`),
  )

const fermentLines = (f: Recipe['ferment']): string[] =>
  f === undefined
    ? []
    : [
        line(
          'ferment',
          `to pH ${f.targetPh}`,
          opt(f.startPh, (p) => `from pH ${p}`),
          opt(f.culture, (c) => `culture ${quoted(c)}`),
        ),
        ...(f.stages ?? []).map((s) =>
          line(
            'ferment stage',
            `for ${s.hours} hours`,
            `at ${s.tempC} °C`,
            opt(s.rhPct, (p) => `humidity ${p} %`),
          ),
        ),
      ]

const dryLines = (d: Recipe['dry']): string[] =>
  d === undefined
    ? []
    : [
        line(
          'dry',
          `loss ${d.lossPct} %`,
          opt(d.days, (n) => `for ${n} days`),
          opt(d.targetAw, (a) => `water activity ${a}`),
          opt(d.targetMoistureToProtein, (m) => `moisture to protein ${m}`),
        ),
        ...(d.stages ?? []).map((s) =>
          line(
            'dry stage',
            `for ${s.days} days`,
            `at ${s.tempC} °C`,
            `humidity ${s.rhPct} %`,
            opt(s.airSpeedMPerS, (v) => `air ${v} m/s`),
          ),
        ),
      ]

/** A recipe as lines of the project's own text format; `docs/formats/recipe-text.md` is its schema. */
export function linesOf(r: Recipe): string[] {
  return [
    line('name', quoted(r.name)),
    line('kind', r.kind),
    line('smoked', yes(r.smoked)),
    line('ready to eat', yes(r.readyToEat)),
    ...(r.route ? [line('route', r.route)] : []),
    ...(r.standards ?? []).map((s) => line('standard', quoted(s))),
    ...r.meat.map((m) => part('meat', m)),
    ...r.additions.map((a) => part('addition', a)),
    ...(r.limits ?? []).map((l) => line('limit', quoted(l.of), ...bounds(l))),
    ...(r.nitriteTarget ? [line('nitrite', `${r.nitriteTarget.lowPpm} to ${r.nitriteTarget.highPpm} ppm`)] : []),
    ...(r.casing
      ? [
          line(
            'casing',
            `${r.casing.calibreMm} mm`,
            opt(r.casing.casing, (c) => `kind ${quoted(c)}`),
            opt(r.casing.kgPerM, (k) => `holds ${k} kg/m`),
            opt(r.casing.linkG, (g) => `link ${g} g`),
          ),
        ]
      : []),
    ...(r.cook
      ? [
          line(
            'cook',
            `core ${r.cook.targetCoreC} °C`,
            opt(r.cook.holdMinutes, (m) => `hold ${m} min`),
            opt(r.cook.lossPct, (p) => `loss ${p} %`),
          ),
          ...(r.cook.stages ?? []).map((s) =>
            line(
              'stage',
              s.medium,
              `at ${s.tempC} °C`,
              opt(s.rhPct, (p) => `humidity ${p} %`),
              opt(s.minutes, (m) => `for ${m} min`),
              opt(s.untilCoreC, (c) => `until ${c} °C`),
            ),
          ),
        ]
      : []),
    ...fermentLines(r.ferment),
    ...dryLines(r.dry),
    ...(r.steps ?? []).map((s) => line('step', quoted(s))),
    ...(r.note === undefined ? [] : [line('note', quoted(r.note))]),
  ]
}

/** A recipe in the project's own text format, format line first. */
export const printRecipe = (recipe: Recipe): string => [`${FORMAT}: ${VERSION}`, ...linesOf(recipe), ''].join('\n')
