/** Options of a choice that may be left open. */
export const choose = (...values: readonly (readonly [string, string])[]) => [
  { value: '', label: 'not said' },
  ...values.map(([value, label]) => ({ value, label })),
]
