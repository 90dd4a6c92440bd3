/** The browser's own database as a shelf, with durability asked for. */
import { get, getMany, promisifyRequest, type UseStore } from 'idb-keyval'
import type { Shelf } from './keeper'

const STORE = 'parts'

/** A shelf in the browser's database of that name. */
export function browserShelf(database = 'aureole'): Shelf {
  const use = durableStore(database)
  return {
    get: (key) => get<unknown>(key, use),
    getMany: (keys) => getMany<unknown>([...keys], use),
    commit: (puts, deletes) =>
      use('readwrite', (store) => {
        for (const [key, value] of puts) store.put(value, key)
        for (const key of deletes) store.delete(key)
        return promisifyRequest(store.transaction)
      }),
  }
}

/** idb-keyval's default store leaves durability to the browser; a day's work asks for the disk. */
function durableStore(database: string): UseStore {
  const request = indexedDB.open(database)
  request.onupgradeneeded = () => request.result.createObjectStore(STORE)
  const opened = promisifyRequest(request)
  return async (mode, callback) => {
    const db = await opened
    return callback(db.transaction(STORE, mode, { durability: 'strict' }).objectStore(STORE))
  }
}
