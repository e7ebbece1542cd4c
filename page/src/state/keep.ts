// SPDX-License-Identifier: MIT
// The job in hand, kept in the browser after every change, so that a killed tab loses nothing.
import type { Job } from '../job/types';

const BASE = 'railwright';
const SHELF = 'jobs';
const CURRENT = 'current';
const WALK = 'walk';
const PICTURE = 'picture';

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

// A walk begun is kept too: a phone in a pocket closes tabs as it likes.
export const keepWalk = (walk: object): Promise<unknown> => within('readwrite', (shelf) => shelf.put(JSON.stringify(walk), WALK));
export const forgetWalk = (): Promise<unknown> => within('readwrite', (shelf) => shelf.delete(WALK));
export async function keptWalk<T>(): Promise<T | null> {
  const text = await within<unknown>('readonly', (shelf) => shelf.get(WALK)).catch(() => undefined);
  return typeof text === 'string' ? (JSON.parse(text) as T) : null;
}

// The picture behind the drawing, as it was chosen: it stays in this browser and is no part of the job's file.
export const keepPicture = (picture: object): Promise<unknown> => within('readwrite', (shelf) => shelf.put(picture, PICTURE));
export const forgetPicture = (): Promise<unknown> => within('readwrite', (shelf) => shelf.delete(PICTURE));
export const keptPicture = <T>(): Promise<T | null> =>
  within<unknown>('readonly', (shelf) => shelf.get(PICTURE)).then((found) => (found as T | undefined) ?? null);
