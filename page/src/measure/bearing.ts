// SPDX-License-Identifier: MIT
// Bearings as people say them: 90, 90.5°, N 45 E, S 12 30 W (degrees and minutes), or a turn from the leg before: L 90, R 45. Spanish letters too: O for west, I and D
// for left and right.
const QUADRANT = /^([ns])\s*(\d+(?:\.\d+)?)°?(?:\s+(\d+(?:\.\d+)?)['′]?)?\s*([ewo])$/;
const TURN = /^([lird])\s*(\d+(?:\.\d+)?)°?$/;
const PLAIN = /^(-?\d+(?:\.\d+)?)°?$/;

const within = (degrees: number): number => ((degrees % 360) + 360) % 360;

// Degrees clockwise from north, or null. `before` is the bearing of the leg before; without it a turn cannot be understood.
export function parseBearing(text: string, before?: number): number | null {
  const said = text.trim().toLowerCase();
  const plain = PLAIN.exec(said);
  if (plain) return within(Number(plain[1]));
  const turn = TURN.exec(said);
  if (turn) return before === undefined ? null : within(before + (turn[1] === 'l' || turn[1] === 'i' ? -1 : 1) * Number(turn[2]));
  const quadrant = QUADRANT.exec(said);
  if (!quadrant) return null;
  const [, from, degrees, minutes, toward] = quadrant;
  const angle = Number(degrees) + Number(minutes ?? 0) / 60;
  if (angle > 90 || Number(minutes ?? 0) >= 60) return null;
  const east = toward === 'e';
  return within(from === 'n' ? (east ? angle : -angle) : east ? 180 - angle : 180 + angle);
}
