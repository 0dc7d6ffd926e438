import { InvalidInput, type Fault } from '@forcemeat/craft/calculation'
import { schedule, type ScheduleInput, type ScheduleOutput } from '@forcemeat/craft/heat/schedule'
import { readGrowing, type GrowingRead, type GrowingRequest } from './growing-file.ts'
import { followCook, type LiveRequest, type LiveResult } from './cook-live.ts'
import { planCook, type PlanRequest, type PlanResult } from './cook-plan.ts'

export type CookWork = {
  plan: { request: PlanRequest; result: PlanResult }
  live: { request: LiveRequest; result: LiveResult }
  read: { request: GrowingRequest; result: GrowingRead }
  search: { request: ScheduleInput; result: ScheduleOutput }
}
export type CookTask = keyof CookWork
export type Asked = { [T in CookTask]: { id: number; task: T; request: CookWork[T]['request'] } }[CookTask]

const work = (asked: Asked): CookWork[CookTask]['result'] => {
  if (asked.task === 'plan') return planCook(asked.request)
  if (asked.task === 'live') return followCook(asked.request)
  if (asked.task === 'read') return readGrowing(asked.request)
  return schedule(asked.request)
}

self.addEventListener('message', (event: MessageEvent<Asked>) => {
  const { id } = event.data
  try {
    self.postMessage({ id, result: work(event.data) })
  } catch (error) {
    const faults: readonly Fault[] =
      error instanceof InvalidInput
        ? error.faults
        : [{ path: '', message: error instanceof Error ? error.message : String(error) }]
    self.postMessage({ id, faults })
  }
})
