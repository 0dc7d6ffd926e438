import type { Command } from './command.ts'

type Listed = { readonly summary: string; readonly load: () => Promise<Command> }

/** Every command; only the one that was asked for is loaded. */
export const commands: Readonly<Record<string, Listed>> = {
  serve: {
    summary: 'Run the workbench and its server on this machine',
    load: async () => (await import('./commands/serve.ts')).serve,
  },
  calc: {
    summary: 'Run one calculation: JSON in, JSON out',
    load: async () => (await import('./commands/calc.ts')).calc,
  },
  judge: {
    summary: "Judge a logger's file against cooking and chilling rules",
    load: async () => (await import('./commands/judge.ts')).judge,
  },
  sheet: {
    summary: 'Print a batch sheet or a cook-and-chill record as PDF',
    load: async () => (await import('./commands/sheet.ts')).sheet,
  },
  recipe: {
    summary: 'Write a recipe to a file, or take one in from a file',
    load: async () => (await import('./commands/recipe.ts')).recipe,
  },
  recall: {
    summary: 'Follow a lot, a pack or a batch to everything it is in',
    load: async () => (await import('./commands/recall.ts')).recall,
  },
  backup: {
    summary: 'Copy the record while it is in use',
    load: async () => (await import('./commands/backup.ts')).backup,
  },
  restore: {
    summary: 'Put a backup in the place of the record',
    load: async () => (await import('./commands/restore.ts')).restore,
  },
  verify: {
    summary: 'Walk the chain of the record and check every hash',
    load: async () => (await import('./commands/verify.ts')).verify,
  },
  import: {
    summary: 'Take an export into an empty record',
    load: async () => (await import('./commands/import.ts')).importEntries,
  },
  export: {
    summary: 'Write the whole record as plain files',
    load: async () => (await import('./commands/export.ts')).exportEntries,
  },
  passphrase: {
    summary: 'Set the passphrase that serving beyond this machine needs',
    load: async () => (await import('./commands/passphrase.ts')).passphrase,
  },
  demo: {
    summary: 'Fill an empty record with the invented kitchen',
    load: async () => (await import('./commands/demo.ts')).demo,
  },
}
