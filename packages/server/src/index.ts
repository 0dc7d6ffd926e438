export { createApp, type App } from './app.ts'
export type { AppOptions } from './context.ts'
export { CannotServe, serve, type ServeOptions, type Serving } from './serve.ts'
export {
  hashPassphrase,
  isPassphraseHash,
  passphraseFile,
  readPassphrase,
  writePassphrase,
} from './access/passphrase.ts'
export { openApiDocument } from './routes/openapi.ts'
export type { Log, LogLine } from './http/log.ts'
export type { BackupPlan, BackupState } from './backup/schedule.ts'
