// SPDX-License-Identifier: MIT
import { expect, it } from 'vitest';
import { changeSetPost, cutOf, isDone, postIsSet, setCut, setDone, setPost, setPostNamed, unsetPost } from './facts';
import type { Job } from './types';

const job: Job = { version: 1 };

it('marks a post set where it was planned, moves it when taped, takes it back', () => {
  const set = setPost(job, 'AB.3', 'AB', 7315.2);
  expect(setPostNamed(set, 'AB.3')).toEqual({ name: 'AB.3', leg: 'AB', station: '7315.2 mm' });
  const again = setPost(changeSetPost(set, 'AB.3', { station: '24 ft 1 in', offset: '1/2 in' }), 'AB.4', 'AB', 9753.6);
  expect(setPostNamed(again, 'AB.3')?.station).toBe('24 ft 1 in');
  expect(again.field?.posts).toHaveLength(2);
  expect(postIsSet(unsetPost(again, 'AB.3'), 'AB.3')).toBe(false);
  expect(postIsSet(unsetPost(again, 'AB.3'), 'AB.4')).toBe(true);
  expect(job.field).toBeUndefined();
});

it('keeps rails cut and bays done once each', () => {
  let marked = setDone(setDone(job, 'AB.1', true), 'AB.1', true);
  expect(marked.field?.done).toEqual(['AB.1']);
  marked = setCut(setCut(marked, 'AB.1.r1', '88 in'), 'AB.1.r1', '87 in');
  expect([cutOf(marked, 'AB.1.r1'), marked.field?.cut?.length]).toEqual(['87 in', 1]);
  marked = setCut(setDone(marked, 'AB.1', false), 'AB.1.r1', '');
  expect([isDone(marked, 'AB.1'), cutOf(marked, 'AB.1.r1')]).toEqual([false, undefined]);
});
