import { workCurve, type CurveRequest } from './curve-job.ts'

self.addEventListener('message', (event: MessageEvent<{ id: number; request: CurveRequest }>) => {
  const { id, request } = event.data
  workCurve(request).then(
    (result) => self.postMessage({ id, result }),
    (error: unknown) => self.postMessage({ id, error: error instanceof Error ? error.message : String(error) }),
  )
})
