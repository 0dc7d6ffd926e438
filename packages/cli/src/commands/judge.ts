import { defineCommand } from 'citty'
import { command } from '../command.ts'

const definition = defineCommand({
  meta: { name: 'judge', description: "Judge a logger's file" },
  args: {},
  run: () => 2,
})
export const judge = command(definition, '')
