/** What stands in the way of the record as a whole; faults of a draft are craft's `InvalidInput` instead. */
export type RecordProblem =
  | 'wrong-node'
  | 'damaged'
  | 'newer-file'
  | 'busy'
  | 'read-only'
  | 'disk-full'
  | 'not-found'
  | 'not-empty'
  | 'would-lose'
  | 'closed'

/** Thrown where the record cannot be opened, written, copied or replaced; `problem` is for programs, `message` for people. */
export class RecordError extends Error {
  readonly problem: RecordProblem
  constructor(problem: RecordProblem, message: string, options?: ErrorOptions) {
    super(message, options)
    this.name = 'RecordError'
    this.problem = problem
  }
}
