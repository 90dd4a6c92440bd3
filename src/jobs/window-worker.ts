/** The worker that the window starts. */
import { serve } from './serve'

const scope = self as unknown as DedicatedWorkerGlobalScope
const handle = serve((message, transfer) => scope.postMessage(message, [...transfer]))
scope.onmessage = (event: MessageEvent<unknown>) => void handle(event.data)
