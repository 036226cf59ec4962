// What the device keeps between visits: the job as it was last, in the browser's own storage. Nothing leaves the device.

import type { Files } from '../engine/messages';
import type { UndoList } from './undo_list';

export interface KeptJob {
  readonly name: string;
  readonly list: UndoList;
  readonly files: Files;
}

const k_store = 'jobs';
const k_last = 'last';

function opened(): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open('evenlit', 1);
    request.onupgradeneeded = () => request.result.createObjectStore(k_store);
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

async function asked<T>(mode: IDBTransactionMode, ask: (store: IDBObjectStore) => IDBRequest<T>): Promise<T> {
  const database = await opened();
  try {
    return await new Promise<T>((resolve, reject) => {
      const request = ask(database.transaction(k_store, mode).objectStore(k_store));
      request.onsuccess = () => resolve(request.result);
      request.onerror = () => reject(request.error);
    });
  } finally {
    database.close();
  }
}

/** Jobs are kept by where they came from, so that pages of two jobs do not mix. */
export const keep = (key: string, job: KeptJob): Promise<unknown> =>
  asked('readwrite', (store) => store.put(job, `${k_last} ${key}`));

export const keptJob = (key: string): Promise<KeptJob | undefined> =>
  asked<KeptJob | undefined>('readonly', (store) => store.get(`${k_last} ${key}`));

export const forgetAll = (): Promise<unknown> => asked('readwrite', (store) => store.clear());
