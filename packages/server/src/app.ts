import { dirname, join } from 'node:path'
import { Hono } from 'hono'
import { scheduleBackups } from './backup/schedule.ts'
import { createDoor } from './access/door.ts'
import { openFeeds } from './feed/store.ts'
import { answerError } from './http/errors.ts'
import { onlyOwnNames, onlyOwnOrigin } from './http/guard.ts'
import { secureHeaders } from './http/headers.ts'
import { logRequests, logToStderr } from './http/log.ts'
import { notHere } from './http/refusal.ts'
import { startReckoner } from './plan/reckoner.ts'
import { watchDoubts } from './judge/doubts.ts'
import type { AppEnv, AppOptions, House } from './context.ts'
import { backupRoutes } from './routes/backup.ts'
import { batchRoutes } from './routes/batches.ts'
import { calcRoutes } from './routes/calc.ts'
import { chartRoutes } from './routes/charts.ts'
import { curveRoutes } from './routes/curves.ts'
import { decideRoutes } from './routes/decide.ts'
import { deviationRoutes } from './routes/deviations.ts'
import { demoRoutes } from './routes/demo.ts'
import { entryRoutes } from './routes/entries.ts'
import { feedRoutes } from './routes/feed.ts'
import { fileRoutes } from './routes/files.ts'
import { hazardPlanRoutes } from './routes/hazard-plan.ts'
import { healthRoutes } from './routes/health.ts'
import { importRoutes } from './routes/import.ts'
import { kitchenRoutes } from './routes/kitchen.ts'
import { labelRoutes } from './routes/labels.ts'
import { liveRoutes } from './routes/live.ts'
import { materialRoutes } from './routes/materials.ts'
import { openApiRoutes } from './routes/openapi.ts'
import { overlayRoutes } from './routes/overlay.ts'
import { paperRoutes } from './routes/paper.ts'
import { recipeFileRoutes } from './routes/recipe-files.ts'
import { photoRoutes } from './routes/photos.ts'
import { recallRoutes } from './routes/recall.ts'
import { recordPaperRoutes } from './routes/record-paper.ts'
import { planRoutes } from './routes/plan.ts'
import { ruleRoutes } from './routes/rules.ts'
import { peopleRoutes } from './routes/people.ts'
import { signInRoutes } from './routes/sign-in.ts'
import { slowRoutes } from './routes/slow.ts'
import { stockRoutes } from './routes/stock.ts'
import { traceRoutes } from './routes/trace.ts'
import { workbenchRoutes } from './routes/workbench.ts'

/** The server without a socket: `request` answers as over HTTP. `hangUp` ends the live lines, so that a server can stop. */
export type App = Hono<AppEnv> & {
  readonly hangUp: () => void
  /** Stops backups by the clock, once one under way is done. */
  readonly settled: () => Promise<void>
}

/** Put the server together on an open record. */
export function createApp(options: AppOptions): App {
  const house: House = {
    ...options,
    now: options.now ?? (() => new Date()),
    log: options.log ?? logToStderr,
    loopback: options.loopback ?? true,
  }
  const app = new Hono<AppEnv>({ strict: false })
  app.use(logRequests(house.log, house.now))
  app.use(secureHeaders)
  if (house.loopback) app.use(onlyOwnNames)
  app.use(onlyOwnOrigin)
  const door = createDoor(house)
  app.use(door.gate)
  const feeds = openFeeds(join(dirname(house.ledger.file), 'feed'))
  const doubts = watchDoubts(house.ledger)
  const backups = scheduleBackups(house.ledger, house.backups, house.now, house.log)
  const reckoner = startReckoner()
  const live = liveRoutes(house, feeds, door)
  for (const routes of [
    signInRoutes(house, door),
    peopleRoutes(house, door),
    healthRoutes(house, door),
    calcRoutes,
    openApiRoutes,
    entryRoutes(house, doubts),
    live.routes,
    kitchenRoutes(house, doubts),
    stockRoutes(house),
    materialRoutes,
    ruleRoutes,
    batchRoutes(house, doubts),
    decideRoutes(house),
    curveRoutes(house),
    feedRoutes(house, feeds),
    overlayRoutes(house),
    slowRoutes(house, feeds),
    traceRoutes(house),
    recallRoutes(house),
    deviationRoutes(house),
    chartRoutes(house),
    hazardPlanRoutes(house),
    recordPaperRoutes(house),
    fileRoutes(house),
    importRoutes(house),
    planRoutes(house, reckoner, feeds),
    photoRoutes(house),
    backupRoutes(backups),
    demoRoutes(house),
    recipeFileRoutes(house),
    labelRoutes(house),
    paperRoutes(house),
    workbenchRoutes(house.web),
  ])
    app.route('/', routes)
  app.notFound((c) => {
    throw notHere('address', `${c.req.method} ${c.req.path}`)
  })
  app.onError(answerError)
  return Object.assign(app, {
    hangUp: () => {
      doubts.stop()
      reckoner.stop()
      void backups.stop()
      live.hangUp()
    },
    settled: backups.stop,
  })
}
