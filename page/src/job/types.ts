// SPDX-License-Identifier: MIT
// Short names for the parts of the job document.
import type { JobDocument } from './job.generated';

export type Job = JobDocument;
export type Site = NonNullable<Job['site']>;
export type Point = NonNullable<Site['points']>[number];
export type Leg = NonNullable<Site['legs']>[number];
export type Gate = NonNullable<Site['gates']>[number];
type SavedZone = NonNullable<Site['zones']>[number];
export type Zone = SavedZone & { shape: NonNullable<SavedZone['shape']> }; // empty where the zone is a stretch of a leg
export type Choices = NonNullable<Job['choices']>;
export type Fence = NonNullable<Choices['fences']>[number];
export type Offer = NonNullable<Choices['offers']>[number];
export type Field = NonNullable<Job['field']>;
export type Gap = NonNullable<Field['gaps']>[number];
export type HeldStick = NonNullable<Field['sticks']>[number];

export const pointsOf = (job: Job): Point[] => job.site?.points ?? [];
export const legsOf = (job: Job): Leg[] => job.site?.legs ?? [];
export const gatesOf = (job: Job): Gate[] => job.site?.gates ?? [];
export const zonesOf = (job: Job): Zone[] => (job.site?.zones ?? []).map((zone) => ({ ...zone, shape: zone.shape ?? [] }));
export const fencesOf = (job: Job): Fence[] => job.choices?.fences ?? [];
export const offersOf = (job: Job): Offer[] => job.choices?.offers ?? [];
export const gapsOf = (job: Job): Gap[] => job.field?.gaps ?? [];
export const unitsOf = (job: Job) => job.units ?? 'feet_inches';
