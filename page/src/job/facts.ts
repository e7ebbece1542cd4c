// SPDX-License-Identifier: MIT
// What has been done in the field, as the job keeps it: posts set (with the place where they stand), rails cut, bays bolted.
import { exact } from '../measure/length';
import type { Field, Job } from './types';

export type SetPost = NonNullable<Field['posts']>[number];

const withField = (job: Job, change: Partial<Field>): Job => ({ ...job, field: { ...job.field, ...change } });
const others = <T>(rows: readonly T[] | undefined, name: (row: T) => string, gone: string): T[] => (rows ?? []).filter((row) => name(row) !== gone);

export const setPostNamed = (job: Job, name: string): SetPost | undefined => job.field?.posts?.find((post) => post.name === name);
export const postIsSet = (job: Job, name: string): boolean => setPostNamed(job, name) !== undefined || isDone(job, name);
export const isDone = (job: Job, name: string): boolean => job.field?.done?.includes(name) ?? false;
export const cutOf = (job: Job, rail: string): string | undefined => job.field?.cut?.find((row) => row.rail === rail)?.length;

// It stands where it was planned until somebody tapes it.
export function setPost(job: Job, name: string, leg: string, station: number): Job {
  return withField(job, { posts: [...others(job.field?.posts, (post) => post.name, name), { name, leg, station: exact(station) }] });
}
export const unsetPost = (job: Job, name: string): Job =>
  withField(job, { posts: others(job.field?.posts, (post) => post.name, name), done: others(job.field?.done, (row) => row, name) });
export const changeSetPost = (job: Job, name: string, change: Partial<SetPost>): Job =>
  withField(job, { posts: (job.field?.posts ?? []).map((post) => (post.name === name ? { ...post, ...change } : post)) });

export const setDone = (job: Job, name: string, done: boolean): Job =>
  withField(job, { done: done ? [...others(job.field?.done, (row) => row, name), name] : others(job.field?.done, (row) => row, name) });

// An empty length takes the fact back.
export function setCut(job: Job, rail: string, length: string): Job {
  const cut = others(job.field?.cut, (row) => row.rail, rail);
  return withField(job, { cut: length === '' ? cut : [...cut, { rail, length }] });
}
