// What the device keeps between visits: the last jobs, in the browser's own storage. Nothing leaves the device.

import type { Files } from '../engine/messages';
import type { UndoList } from './undo_list';

/** Earlier texts of a job that were noted, to be compared with. */
export interface Earlier {
  readonly layout?: string;
  readonly marked?: string;
}

export interface KeptJob {
  readonly id: string;
  readonly name: string;
  readonly list: UndoList;
  readonly files: Files;
  readonly earlier: Earlier;
  /** The page that it was open in: pages that are made for a job begin with their own. */
  readonly page: string;
  /** When it was kept last, from 1970. */
  readonly at_ms: number;
  /** How often it was kept; 0: never. Tells whether another page has kept it since. */
  readonly revision: number;
  /** It can be had again as it is: it is a demo, say, and unchanged. */
  readonly isSpare: boolean;
}

const k_database = 'evenlit';
const k_version = 2;
const k_store = 'kept';
const k_store_before = 'jobs'; // of version 1: the last job and the one before it, by where they came from
const k_most_jobs = 16;

export const newId = (): string =>
  Array.from(crypto.getRandomValues(new Uint32Array(2)), (part) => part.toString(36)).join('-');

/** Jobs that an earlier version of the page kept stay kept. */
function upgrade(database: IDBDatabase, change: IDBTransaction): void {
  const store = database.createObjectStore(k_store, { keyPath: 'id' });
  if (!database.objectStoreNames.contains(k_store_before)) return;
  const before = change.objectStore(k_store_before).getAll();
  before.onsuccess = () => {
    for (const job of before.result as readonly Pick<KeptJob, 'name' | 'list' | 'files'>[]) {
      store.put({ ...job, earlier: {}, id: newId(), page: '', at_ms: 0, revision: 1, isSpare: false } satisfies KeptJob);
    }
    database.deleteObjectStore(k_store_before);
  };
}

function opened(): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open(k_database, k_version);
    request.onupgradeneeded = () => {
      if (request.transaction) upgrade(request.result, request.transaction);
    };
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

/** Works in one transaction: no other page comes between. `work` gets what all of it answers. */
async function within<T>(mode: IDBTransactionMode, work: (store: IDBObjectStore, answer: (found: T) => void) => void): Promise<T> {
  const database = await opened();
  try {
    return await new Promise<T>((resolve, reject) => {
      const transaction = database.transaction(k_store, mode);
      let answered: T;
      transaction.oncomplete = () => resolve(answered);
      transaction.onerror = () => reject(transaction.error);
      transaction.onabort = () => reject(transaction.error);
      work(transaction.objectStore(k_store), (found) => (answered = found));
    });
  } finally {
    database.close();
  }
}

/** In the order in which they are given up last: spare ones first, then the oldest. */
export const byWorth = (jobs: readonly KeptJob[]): readonly KeptJob[] =>
  [...jobs].sort((a, b) => Number(a.isSpare) - Number(b.isSpare) || b.at_ms - a.at_ms);

/**
 * Keeps a job. Where another page has kept it since, that stays, and this one is kept as a job of its own.
 *
 * @param job with the revision that it was opened or kept with
 * @returns the job as it is kept
 */
export const keep = (job: KeptJob): Promise<KeptJob> =>
  within<KeptJob>('readwrite', (store, answer) => {
    const all = store.getAll();
    all.onsuccess = () => {
      const jobs = all.result as readonly KeptJob[];
      const there = jobs.find(({ id }) => id === job.id);
      const isOther = there !== undefined && there.revision !== job.revision;
      const kept = { ...job, id: isOther ? newId() : job.id, revision: job.revision + 1 };
      store.put(kept);
      const others = jobs.filter(({ id }) => id !== kept.id);
      for (const { id } of byWorth(others).slice(k_most_jobs - 1)) store.delete(id);
      answer(kept);
    };
  });

export const keptJobs = (): Promise<readonly KeptJob[]> =>
  within<readonly KeptJob[]>('readonly', (store, answer) => {
    const all = store.getAll();
    all.onsuccess = () => answer(all.result as readonly KeptJob[]);
  });

export const forgetJob = (id: string): Promise<void> => within<void>('readwrite', (store) => void store.delete(id));

export const forgetAll = (): Promise<void> => within<void>('readwrite', (store) => void store.clear());

const k_open = 'evenlit job '; // of a tab, so that it comes back to its own job after a reload

export function openHere(page: string): string | null {
  try {
    return sessionStorage.getItem(k_open + page);
  } catch {
    return null;
  }
}

/** Where the browser keeps nothing for a tab, it comes back to the newest job. */
export function rememberOpen(page: string, id: string): void {
  try {
    sessionStorage.setItem(k_open + page, id);
  } catch {
    return;
  }
}
