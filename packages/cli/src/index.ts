export { commands } from './commands.ts'
export { exit } from './command.ts'
