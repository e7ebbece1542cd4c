// SPDX-License-Identifier: MIT
// The job in hand, kept in the browser after every change, so that a killed tab loses nothing.
import type { Job } from '../job/types';

const BASE = 'railwright';
const SHELF = 'jobs';
const CURRENT = 'current';

function open(): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open(BASE, 1);
    request.onupgradeneeded = () => request.result.createObjectStore(SHELF);
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

async function within<T>(mode: IDBTransactionMode, work: (shelf: IDBObjectStore) => IDBRequest<T>): Promise<T> {
  const base = await open();
  try {
    return await new Promise<T>((resolve, reject) => {
      const transaction = base.transaction(SHELF, mode);
      const request = work(transaction.objectStore(SHELF));
      transaction.oncomplete = () => resolve(request.result);
      transaction.onabort = () => reject(transaction.error ?? request.error);
      transaction.onerror = () => reject(transaction.error ?? request.error);
    });
  } finally {
    base.close();
  }
}

// Kept as text: what is read back is what a file would hold.
export const keepJob = (job: Job): Promise<unknown> => within('readwrite', (shelf) => shelf.put(JSON.stringify(job), CURRENT));
export const forgetJob = (): Promise<unknown> => within('readwrite', (shelf) => shelf.delete(CURRENT));

export async function keptJob(): Promise<Job | null> {
  const text = await within<unknown>('readonly', (shelf) => shelf.get(CURRENT)).catch(() => undefined);
  return typeof text === 'string' ? (JSON.parse(text) as Job) : null;
}
