/** The worker that the command line starts. */
import { parentPort } from 'node:worker_threads'
import { serve } from '../jobs/serve'

const port = parentPort
if (!port) throw new Error('node-worker runs as a worker thread only.')
const handle = serve((message, transfer) => port.postMessage(message, [...transfer]))
port.on('message', (message: unknown) => void handle(message))
