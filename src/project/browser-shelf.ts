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
        const done = promisifyRequest(store.transaction)
        for (const key of deletes) store.delete(key)
        putInTurn(store, puts.values())
        return done
      }),
  }
}

/**
 * Writes one value after another within the transaction: each is copied as it is handed over, and
 * all of a large project at once would hold the window up and stand in memory twice.
 */
function putInTurn(
  store: IDBObjectStore,
  puts: Iterator<readonly [key: string, value: unknown]>,
): void {
  const { done, value: entry } = puts.next()
  if (done) return
  store.put(entry[1], entry[0]).onsuccess = () => putInTurn(store, puts)
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
