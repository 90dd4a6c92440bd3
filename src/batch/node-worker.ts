/** The worker that the command line starts. */
import { parentPort } from 'node:worker_threads'
import { serve } from '../jobs/serve'
import { PLATFORM } from '../jobs/tasks'
import { nodePlatform } from './node-platform'

const port = parentPort
if (!port) throw new Error('node-worker runs as a worker thread only.')
const handle = serve(
  (message, transfer) => port.postMessage(message, [...transfer]),
  () => undefined,
  new Map([[PLATFORM, nodePlatform()]]),
)
port.on('message', (message: unknown) => void handle(message))
