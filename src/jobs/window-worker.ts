/** The worker that the window starts. */
import { serve } from './serve'
import { PLATFORM, prepareAhead } from './tasks'
import { windowPlatform } from './window-platform'

const scope = self as unknown as DedicatedWorkerGlobalScope
// A page that opens fetches and unpacks its files first: meanwhile workers make references ready.
const handle = serve(
  (message, transfer) => scope.postMessage(message, [...transfer]),
  prepareAhead,
  new Map([[PLATFORM, windowPlatform()]]),
)
scope.onmessage = (event: MessageEvent<unknown>) => void handle(event.data)
