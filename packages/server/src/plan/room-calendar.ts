import type { TurnsInput, Turns } from '@forcemeat/craft/dry/room-turns-schema'
import { dayAfter, daysBetween } from '@forcemeat/craft/plan/day'
import { dryingPieceFrom, missingWords } from '@forcemeat/craft/recipe/ferment-dry/drying-piece'
import { fermentAir, fermentDays, upTo } from '@forcemeat/craft/recipe/ferment-dry/planned-air'
import { hangingNow, type BatchRecord, type RoomFacts } from '@forcemeat/ledger'
import { mixOf, stuffedKg } from '../slow/mix.ts'
import { DAY_MS } from '../slow/ready.ts'
import { isSlow, slowBatches, type Kitchen, type SlowWork } from './slow.ts'

type Piece = TurnsInput['batches'][number]

export type RoomCalendar = {
  readonly room: RoomFacts
  readonly from: string
  readonly days: number
  /** Batches of the calendar: what hangs there, and what waits with its turn. */
  readonly rows: readonly {
    readonly batch: string
    readonly recipeName: string
    readonly kg: number
    readonly hangs: boolean
    readonly in?: string
    readonly out?: string
    readonly asked?: string
    readonly peakKgPerDay?: number
    readonly crustRiskFrom?: string
    readonly because?: string
  }[]
  readonly load: readonly {
    readonly on: string
    readonly hangingKg: number
    readonly allKg: number
    readonly removedKg?: number
    readonly roomKg: number
    readonly settlesAtRhPct?: number
  }[]
  /** Batches the calendar leaves out, and why. */
  readonly leftOut: readonly { readonly batch: string; readonly because: string }[]
  readonly warnings: readonly string[]
  readonly working?: NonNullable<Turns['balance']>['working']
}

const plainLoss = ({ recipeBody: { dry } }: BatchRecord): Pick<Piece, 'lossPctPerDay'> | undefined =>
  dry?.days ? { lossPctPerDay: dry.lossPct / dry.days } : undefined

/** What hangs there, as the room is reckoned with: dried as far as it is, or at a plain loss a day by the recipe's days. */
function hangingPiece(
  { record, view, input, startMs }: SlowWork,
  room: RoomFacts,
  fromMs: number,
): Piece | { missing: string } {
  const plain = plainLoss(record)
  if (!input && !plain) return { missing: view.unknown ?? 'nothing says how fast it dries' }
  const dries = room.purpose === 'dry'
  // A fermenting room is left when the fermentation ends, a drying room when the batch is ready.
  const end = dries
    ? view.ready && Date.parse(`${view.ready.likely}T12:00:00Z`)
    : startMs + fermentAir(record.recipeBody).fermentDays * DAY_MS
  // What is past its day hangs until it is taken out: a day is left to it.
  const outDay = end === undefined ? undefined : Math.max(1, Number(((end - fromMs) / DAY_MS).toFixed(2)))
  const before = input ? upTo(input.stages, Math.max(0, (fromMs - startMs) / DAY_MS)) : []
  return {
    name: record.batch,
    kg: view.mixKg,
    inDay: 0,
    ...(input
      ? {
          piece: {
            diameterMm: input.diameterMm,
            composition: input.composition,
            target: input.target,
            ...(before.length > 0 ? { before } : {}),
          },
        }
      : plain),
    ...(outDay === undefined ? {} : { outDay }),
  }
}

function plannedPiece(record: BatchRecord, from: string): Piece | { missing: string } {
  const recipe = record.recipeBody
  const kg = stuffedKg(record)
  if (kg <= 0) return { missing: 'nothing is planned to go into it' }
  const { piece, missing } = dryingPieceFrom(mixOf(record))
  const plain = plainLoss(record)
  if (!piece && !plain) return { missing: missingWords(missing) }
  const before = [...fermentAir(recipe).stages]
  const inDay = Math.max(0, daysBetween(from, record.on) + Math.ceil(fermentDays(recipe)))
  return {
    name: record.batch,
    kg,
    inDay,
    ...(piece
      ? { piece: { ...piece, ...(before.length > 0 ? { before } : {}) } }
      : { ...plain, outDay: inDay + recipe.dry!.days! }),
  }
}

/** The calendar of one room: what hangs there, what could go in when, and the water against what the unit takes. */
export async function roomCalendar(
  kitchen: Kitchen,
  room: RoomFacts,
  { days, without }: { days: number; without: ReadonlySet<string> },
): Promise<RoomCalendar> {
  const { ledger, reckoner, nowMs } = kitchen
  const from = new Date(nowMs).toISOString().slice(0, 10)
  const [slow, placements, rooms, open] = await Promise.all([
    slowBatches(kitchen),
    ledger.placements(),
    ledger.rooms(),
    ledger.batches({ state: ['planned', 'weighing', 'made'], limit: 500 }),
  ])
  const where = hangingNow(placements)
  const leftOut: { batch: string; because: string }[] = []
  const names = new Map<string, { recipeName: string; kg: number }>()
  const take = (batch: string, recipeName: string, piece: Piece | { missing: string }): Piece[] => {
    if ('missing' in piece) {
      leftOut.push({ batch, because: piece.missing })
      return []
    }
    names.set(batch, { recipeName, kg: piece.kg })
    return [piece]
  }
  const hanging = slow
    .filter((w) => where.get(w.record.batch)?.room === room.room)
    .flatMap((w) => take(w.record.batch, w.record.recipeName, hangingPiece(w, room, Date.parse(from))))
  const overdue = new Map(
    slow.flatMap(({ record: { batch }, view: { ready } }) =>
      room.purpose === 'dry' && ready && ready.likely <= from
        ? [[batch, `its likely day was ${ready.likely}: a day is left to it to be taken out`]]
        : [],
    ),
  )
  const planned: Piece[] = []
  // Turns are given in rooms that dry.
  for (const { batch } of room.purpose === 'dry' ? open : []) {
    const at = where.get(batch)
    if (at?.room === room.room) continue
    // What hangs in a drying room stays there; what ferments elsewhere waits for its turn here.
    if (at && rooms.find((r) => r.room === at.room)?.purpose === 'dry') continue
    const record = await ledger.batch(batch)
    if (!record || !isSlow(record) || record.recipeBody.dry === undefined) continue
    if (without.has(batch)) leftOut.push({ batch, because: 'left out by hand' })
    else planned.push(...take(batch, record.recipeName, plannedPiece(record, from)))
  }
  const input: TurnsInput = {
    room: {
      tempC: room.tempC,
      rhPct: room.rhPct!,
      ...(room.airSpeedMPerS === undefined ? {} : { airSpeedMPerS: room.airSpeedMPerS }),
    },
    ...(room.unit ? { unit: room.unit } : {}),
    ...(room.freshAir ? { freshAir: room.freshAir } : {}),
    ...(room.capacityKg === undefined ? {} : { capacityKg: room.capacityKg }),
    batches: hanging,
    planned,
    days,
  }
  const turns = await reckoner.run<Turns>('dry.turns', input)
  const on = (day: number | undefined): string | undefined =>
    day === undefined ? undefined : dayAfter(from, Math.floor(day + 1e-9))
  const turnOf = new Map(turns.turns.map((t) => [t.name, t]))
  return {
    room,
    from,
    days,
    rows: [...hanging, ...planned].map((p) => {
      const turn = turnOf.get(p.name)
      const b = turns.batches.find((x) => x.name === p.name)
      const since = where.get(p.name)?.since.slice(0, 10)
      return defined({
        batch: p.name,
        ...names.get(p.name)!,
        hangs: turn === undefined,
        in: turn ? on(turn.inDay) : since,
        out: on(turn ? turn.outDay : b?.outDay),
        asked: on(turn?.askedDay),
        peakKgPerDay: b?.peakKgPerDay,
        crustRiskFrom: on(b?.crustRiskFrom),
        because: turn?.because ?? overdue.get(p.name),
      })
    }),
    load: turns.days.map((d, i) =>
      defined({
        on: dayAfter(from, i),
        hangingKg: d.hangingLoadKg,
        allKg: d.loadKg,
        removedKg: d.removedKg,
        roomKg: d.roomKg,
        settlesAtRhPct: turns.balance?.days[i]?.settlesAtRhPct,
      }),
    ),
    leftOut,
    warnings: turns.warnings,
    ...(turns.balance ? { working: turns.balance.working } : {}),
  }
}

type Defined<T> = { [K in keyof T as undefined extends T[K] ? K : never]?: Exclude<T[K], undefined> } & {
  [K in keyof T as undefined extends T[K] ? never : K]: T[K]
}
/** An object without the fields nobody gave. */
export const defined = <T extends object>(o: T): Defined<T> =>
  Object.fromEntries(Object.entries(o).filter(([, v]) => v !== undefined)) as Defined<T>
