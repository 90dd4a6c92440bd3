/** The worker that the window starts. */
import { serve } from './serve'
import { prepareAhead } from './tasks'

const scope = self as unknown as DedicatedWorkerGlobalScope
// A page that opens fetches and unpacks its files first: meanwhile workers make references ready.
const handle = serve((message, transfer) => scope.postMessage(message, [...transfer]), prepareAhead)
scope.onmessage = (event: MessageEvent<unknown>) => void handle(event.data)
