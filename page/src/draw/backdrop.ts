// SPDX-License-Identifier: MIT
// A picture lying under the drawing: where it lies, how large and how faint. Scaled by two places whose distance somebody taped.
import type { Place } from '../job/edit';
import { distance } from '../job/edit';
import type { View } from './view';

export interface Picture {
  blob: Blob;
  name: string;
  width: number; // pixels
  height: number;
  east: number; // where its middle lies, millimetres
  north: number;
  size: number; // millimetres to a pixel
  turn: number; // degrees clockwise
  shown: number; // 0 faint to 1 full
  scaled: boolean; // by a typed distance
}

const PADDOCK = 60_000; // millimetres, where there is no line yet

// Laid over the line with some margin, or over a paddock's worth of ground.
export function laid(picture: Pick<Picture, 'blob' | 'name' | 'width' | 'height'>, places: Place[]): Picture {
  const easts = places.length > 0 ? places.map((place) => place.east) : [0, PADDOCK];
  const norths = places.length > 0 ? places.map((place) => place.north) : [0, PADDOCK];
  const [west, east] = [Math.min(...easts), Math.max(...easts)];
  const [south, north] = [Math.min(...norths), Math.max(...norths)];
  const size = 1.3 * Math.max((east - west) / picture.width, (north - south) / picture.height, 3000 / picture.width);
  return { ...picture, east: (west + east) / 2, north: (south + north) / 2, size, turn: 0, shown: 0.55, scaled: false };
}

// Two places of the picture are to lie `length` apart; the first stays where it is.
export function scaledBy(picture: Picture, a: Place, b: Place, length: number): Picture | null {
  const now = distance(a, b);
  if (!(now > 0) || !(length > 0)) return null;
  const times = length / now;
  return {
    ...picture,
    size: picture.size * times,
    east: a.east + (picture.east - a.east) * times,
    north: a.north + (picture.north - a.north) * times,
    scaled: true,
  };
}

export const shifted = (picture: Picture, east: number, north: number): Picture => ({ ...picture, east: picture.east + east, north: picture.north + north });

// Its four corners on the plane.
export function cornersOf(picture: Picture): Place[] {
  const [w, h] = [(picture.width * picture.size) / 2, (picture.height * picture.size) / 2];
  const turn = (picture.turn * Math.PI) / 180;
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  return (
    [
      [-w, h],
      [w, h],
      [w, -h],
      [-w, -h],
    ] as const
  ).map(([x, y]) => ({ east: picture.east + x * cos + y * sin, north: picture.north - x * sin + y * cos }));
}

export function paintPicture(context: CanvasRenderingContext2D, bitmap: ImageBitmap, picture: Picture, view: View, ratio: number): void {
  const scale = view.scale * picture.size;
  context.save();
  context.setTransform(ratio, 0, 0, ratio, ratio * (view.x + picture.east * view.scale), ratio * (view.y - picture.north * view.scale));
  context.rotate((picture.turn * Math.PI) / 180);
  context.globalAlpha = picture.shown;
  context.imageSmoothingQuality = 'high';
  context.drawImage(bitmap, (-picture.width / 2) * scale, (-picture.height / 2) * scale, picture.width * scale, picture.height * scale);
  context.restore();
}
