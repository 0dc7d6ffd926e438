import type { PageProps } from '../../app.tsx'
import { OneOrder } from './one-order.tsx'
import { OneRoom } from './one-room.tsx'
import { Orders } from './orders.tsx'
import { PlanParts } from './parts.tsx'
import { Prices } from './prices.tsx'
import { Resources } from './resources.tsx'
import { Rooms } from './rooms.tsx'
import { WeekPlan } from './week.tsx'

/** What to make when: orders, rooms, prices, what a day's work takes room of, and the plan of the days to come. */
export function Plan({ path }: PageProps) {
  const [first = '', second] = path
  return (
    <>
      <PlanParts at={first} />
      <Part first={first} second={second} />
    </>
  )
}

function Part({ first, second }: { first: string; second: string | undefined }) {
  if (first === 'orders') return second ? <OneOrder key={second} order={second} /> : <Orders />
  if (first === 'rooms') return second ? <OneRoom key={second} room={second} /> : <Rooms />
  if (first === 'prices') return <Prices />
  if (first === 'resources') return <Resources />
  if (first === '') return <WeekPlan />
  return (
    <>
      <h1>There is no such part of the plan</h1>
      <p>
        <a href="/plan">Go to the plan</a>
      </p>
    </>
  )
}
