import { InvalidInput, type Fault } from '@forcemeat/craft/calculation'
import type { Forecast } from '@forcemeat/craft/dry/outlook'
import { courseOf, forecastsOf, type CourseRequest, type CourseResult, type ForecastRequest } from './dry-course.ts'

export type DryWork = {
  course: { request: CourseRequest; result: CourseResult }
  forecasts: { request: ForecastRequest; result: Forecast[] }
}
export type DryTask = keyof DryWork
type Asked = { [T in DryTask]: { id: number; task: T; request: DryWork[T]['request'] } }[DryTask]

self.addEventListener('message', (event: MessageEvent<Asked>) => {
  const { id } = event.data
  try {
    const result = event.data.task === 'course' ? courseOf(event.data.request) : forecastsOf(event.data.request)
    self.postMessage({ id, result })
  } catch (error) {
    const faults: readonly Fault[] =
      error instanceof InvalidInput
        ? error.faults
        : [{ path: '', message: error instanceof Error ? error.message : String(error) }]
    self.postMessage({ id, faults })
  }
})
