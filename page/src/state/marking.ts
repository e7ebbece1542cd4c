// SPDX-License-Identifier: MIT
// Marks what is done in the field: each mark is one change of the job, so that undo takes it back.
import { cutOf, isDone, postIsSet, setCut, setDone, setPost, unsetPost } from '../job/facts';
import { exact } from '../measure/length';
import { desk } from './desk.svelte';

export function togglePost(name: string): void {
  const job = desk.job;
  if (!job) return;
  if (postIsSet(job, name)) return desk.change(unsetPost(job, name));
  const on = desk.plan?.posts.find((post) => post.name === name)?.on[0];
  desk.change(on ? setPost(job, name, on.leg, on.station) : setDone(job, name, true));
}

export function toggleBay(name: string): void {
  if (desk.job) desk.change(setDone(desk.job, name, !isDone(desk.job, name)));
}

export function toggleCut(rail: string, length: number): void {
  if (desk.job) desk.change(setCut(desk.job, rail, cutOf(desk.job, rail) === undefined ? exact(length) : ''));
}

// Every planned post of a leg at once: one step of undo.
export function setAllPosts(leg: string): void {
  let job = desk.job;
  for (const post of desk.plan?.posts ?? []) {
    const on = post.on.find((row) => row.leg === leg);
    if (job && on && !postIsSet(job, post.name)) job = setPost(job, post.name, on.leg, on.station);
  }
  if (job) desk.change(job);
}
