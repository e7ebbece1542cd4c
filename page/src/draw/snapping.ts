// SPDX-License-Identifier: MIT
// What a hand can snap to in a job: for a new corner, and for a corner being dragged.
import { bearing, bearingTo, distance, endsOf, placeOf, pointNamed } from '../job/edit';
import { legsOf, pointsOf, type Job } from '../job/types';
import type { Anchor, SnapContext } from './snap';

const MOST_LEGS = 200; // more would make every place near something

function lengthsBut(job: Job, gone: ReadonlySet<string>): number[] {
  return legsOf(job)
    .slice(0, MOST_LEGS)
    .flatMap((leg) => {
      const ends = gone.has(leg.id) ? null : endsOf(job, leg);
      return ends ? [distance(...ends)] : [];
    });
}

// A corner as an anchor, without the legs that move with the hand.
function anchorAt(job: Job, id: string, gone: ReadonlySet<string> = new Set()): Anchor[] {
  const point = pointNamed(job, id);
  if (!point) return [];
  const along = legsOf(job).flatMap((leg) => {
    const ends = !gone.has(leg.id) && (leg.from === id || leg.to === id) ? endsOf(job, leg) : null;
    return ends ? [bearing(...ends)] : [];
  });
  return [{ at: placeOf(point), along }];
}

// The corner where the chain being drawn began: walked back leg by leg.
function beginning(job: Job, chain: string): string {
  const seen = new Set([chain]);
  let at = chain;
  for (;;) {
    const leg = legsOf(job).find((row) => row.to === at && !seen.has(row.from));
    if (!leg) return at;
    seen.add(leg.from);
    at = leg.from;
  }
}

export function forNewCorner(job: Job, chain: string | null, reach: number, step: number): SnapContext {
  const first = chain === null ? null : beginning(job, chain);
  const anchors = chain === null ? [] : [...anchorAt(job, chain), ...(first !== null && first !== chain ? anchorAt(job, first) : [])];
  const corners = pointsOf(job)
    .filter((point) => point.id !== chain)
    .map((point) => ({ id: point.id, place: placeOf(point) }));
  return { anchors, corners, lengths: chain === null || bearingTo(job, chain) === undefined ? [] : lengthsBut(job, new Set()), reach, step };
}

// Corners do not fall on corners: two posts in one hole would be a fault.
export function forDrag(job: Job, id: string, reach: number, step: number): SnapContext {
  const moving = legsOf(job).filter((leg) => leg.from === id || leg.to === id);
  const gone = new Set(moving.map((leg) => leg.id));
  const anchors = moving.flatMap((leg) => anchorAt(job, leg.from === id ? leg.to : leg.from, gone));
  return { anchors, corners: [], lengths: moving.length === 0 ? [] : lengthsBut(job, gone), reach, step };
}
