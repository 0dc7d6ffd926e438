import { InvalidInput } from '../../calculation.ts'

/** Parse with a schema of an engine; its faults are of the pack, which is where the figures come from. */
export function parsed<T>(
  schema: {
    safeParse: (v: unknown) => {
      success: boolean
      data?: T
      error?: { issues: readonly { path: readonly PropertyKey[]; message: string }[] }
    }
  },
  value: unknown,
): T {
  const read = schema.safeParse(value)
  if (read.success) return read.data!
  throw new InvalidInput(
    read.error!.issues.map((i) => ({ path: `pack.${i.path.map(String).join('.')}`, message: i.message })),
  )
}
