// SPDX-License-Identifier: MIT
// What is done about ground that does not suit the rails: places along a leg where earth is cut or filled, or a filler rail hung.
import { snapped } from '../measure/length';
import { unitsOf, type Choices, type Job } from './types';

export type Mend = NonNullable<Choices['mends']>[number];

const withMends = (job: Job, mends: Mend[]): Job => ({ ...job, choices: { ...job.choices, mends } });

export const mendsOf = (job: Job): Mend[] => job.choices?.mends ?? [];
// A filler rail is what is tried first: it moves no earth.
export const addMend = (job: Job, leg: string, stationMm: number): Job =>
  withMends(job, [...mendsOf(job), { leg, station: snapped(stationMm, unitsOf(job)), way: 'filler' }]);
export const changeMend = (job: Job, index: number, change: Partial<Mend>): Job =>
  withMends(
    job,
    mendsOf(job).map((row, at) => (at === index ? { ...row, ...change } : row)),
  );
export const removeMend = (job: Job, index: number): Job =>
  withMends(
    job,
    mendsOf(job).filter((_, at) => at !== index),
  );
