import '../strip/strip.css'
import { FindOrder } from '../strip/findOrder.tsx'
import { NearestOrder } from '../strip/nearestOrder.tsx'
import { OrderTable } from '../strip/orderTable.tsx'
import { Precedence } from '../strip/precedence.tsx'
import { useOrder } from '../strip/useOrder.ts'
import { StageChecks } from './stage.tsx'

/** The order of taking apart: worked on here, verified step by step, looked for, and drawn as who waits for whom. */
export function StripPage() {
  const order = useOrder()
  return (
    <>
      <OrderTable order={order} />
      <NearestOrder order={order} />
      <FindOrder />
      <Precedence />
      <StageChecks stage="strip" />
    </>
  )
}
