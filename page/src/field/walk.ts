// SPDX-License-Identifier: MIT
// A walk along the line with the phone in hand: the fixes worth keeping and the corners where the walker stood. It only gathers; the engine turns it into legs.
export interface Fix {
  latitude: number; // degrees
  longitude: number;
  accuracy: number; // metres, the radius that holds the true place 95 times in 100 (W3C Geolocation, section 6.3)
  time: number; // ms
}
export interface Corner extends Fix {
  fixes: number; // how many were averaged
}
export interface Walk {
  fixes: readonly Fix[];
  corners: readonly Corner[];
  poor: number; // left out
}

export const NOTHING_WALKED: Walk = { fixes: [], corners: [], poor: 0 };
export const POOREST = 12; // metres: a fix worse than a bay and a half says nothing about a fence line
export const LINGER = 8000; // ms averaged at a corner
const MOST_FIXES = 20_000;

export const good = (fix: Fix): boolean => Number.isFinite(fix.latitude) && Number.isFinite(fix.longitude) && fix.accuracy > 0 && fix.accuracy <= POOREST;

// Fixes without end would fill the browser's store: a walk of hours drops every second one of its older half.
function thinned(fixes: readonly Fix[]): readonly Fix[] {
  return fixes.length < MOST_FIXES ? fixes : fixes.filter((_, index) => index >= MOST_FIXES / 2 || index % 2 === 0);
}

export function taken(walk: Walk, fix: Fix): Walk {
  if (!good(fix)) return { ...walk, poor: walk.poor + 1 };
  return { ...walk, fixes: thinned([...walk.fixes, fix]) };
}

// The mean of the last seconds, better fixes counting more. Its accuracy is no better than theirs: fixes of one stand share their error.
export function standing(fixes: readonly Fix[], now: number): Corner | null {
  const fresh = fixes.filter((fix) => now - fix.time <= LINGER && fix.time <= now);
  const [first] = fresh;
  if (!first) return null;
  let [weights, north, east, accuracy] = [0, 0, 0, 0];
  for (const fix of fresh) {
    const weight = 1 / (fix.accuracy * fix.accuracy);
    // Counted from the first fix, so that a stand on the 180th meridian is not averaged round the globe.
    const turn = ((fix.longitude - first.longitude + 540) % 360) - 180;
    weights += weight;
    north += weight * (fix.latitude - first.latitude);
    east += weight * turn;
    accuracy += weight * fix.accuracy;
  }
  const longitude = ((first.longitude + east / weights + 540) % 360) - 180;
  return { latitude: first.latitude + north / weights, longitude, accuracy: accuracy / weights, time: now, fixes: fresh.length };
}

export function cornerHere(walk: Walk, now: number): Walk | null {
  const corner = standing(walk.fixes, now);
  return corner && { ...walk, corners: [...walk.corners, corner] };
}

export const withoutLastCorner = (walk: Walk): Walk => ({ ...walk, corners: walk.corners.slice(0, -1) });

const place = (element: string, { latitude, longitude }: Fix) => `<${element} lat="${latitude.toFixed(8)}" lon="${longitude.toFixed(8)}"/>`;

// The walk as a file that the engine reads: marked corners are a route, whose points stay as they are; without two of them the track speaks and the engine finds its
// corners. Heights are left out: a phone's stray by metres, which would tilt every rail.
export function walkText(walk: Walk, close: boolean): string {
  const corners = [...walk.corners];
  const [first] = corners;
  if (close && first && corners.length > 2) corners.push(first);
  const body =
    corners.length >= 2
      ? `<rte>${corners.map((corner) => place('rtept', corner)).join('')}</rte>`
      : `<trk><trkseg>${walk.fixes.map((fix) => place('trkpt', fix)).join('')}</trkseg></trk>`;
  return `<?xml version="1.0"?><gpx version="1.1" creator="Railwright" xmlns="http://www.topografix.com/GPX/1/1">${body}</gpx>`;
}

// One sigma in metres: half of the 95 % radius, the worst of the corners.
export function errorOf(walk: Walk): number {
  const said = (walk.corners.length >= 2 ? walk.corners : walk.fixes).map((fix) => fix.accuracy);
  return said.length === 0 ? 0 : said.reduce((worst, accuracy) => Math.max(worst, accuracy), 0) / 2;
}

// Metres east and north of the first fix, for the small picture of the walk only.
export function sketched(first: Fix, fix: Fix): [number, number] {
  const metres = 111_320;
  const turn = ((fix.longitude - first.longitude + 540) % 360) - 180;
  return [turn * metres * Math.cos((first.latitude * Math.PI) / 180), (fix.latitude - first.latitude) * metres];
}
