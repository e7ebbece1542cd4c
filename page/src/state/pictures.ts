// SPDX-License-Identifier: MIT
// Pictures in: a photo or a scanned plan becomes the paper's background. Large ones are drawn smaller first, so that the browser's store can keep them.
import { laid } from '../draw/backdrop';
import { placeOf } from '../job/edit';
import { pointsOf } from '../job/types';
import { t } from '../words/words.svelte';
import { desk } from './desk.svelte';

const LARGEST_FILE = 40 * 1024 * 1024;
const LARGEST_SIDE = 3000; // pixels

export const looksLikePicture = (file: File): boolean => file.type.startsWith('image/');

async function smaller(bitmap: ImageBitmap, blob: Blob): Promise<Blob> {
  const times = LARGEST_SIDE / Math.max(bitmap.width, bitmap.height);
  if (times >= 1) return blob;
  const canvas = new OffscreenCanvas(Math.round(bitmap.width * times), Math.round(bitmap.height * times));
  canvas.getContext('2d')?.drawImage(bitmap, 0, 0, canvas.width, canvas.height);
  return canvas.convertToBlob({ type: 'image/jpeg', quality: 0.85 });
}

export async function bringPicture(file: File): Promise<void> {
  if (file.size > LARGEST_FILE) return void (desk.message = t('picture.too_large'));
  const bitmap = await createImageBitmap(file).catch(() => null);
  if (!bitmap || !desk.job) return void (desk.message = t('picture.not_a_picture', { name: file.name }));
  const times = Math.min(1, LARGEST_SIDE / Math.max(bitmap.width, bitmap.height));
  const [width, height] = [Math.round(bitmap.width * times), Math.round(bitmap.height * times)];
  const blob = await smaller(bitmap, file);
  bitmap.close();
  desk.changePicture(laid({ blob, name: file.name, width, height }, pointsOf(desk.job).map(placeOf)));
  desk.tool = 'picture';
  desk.note = 'line';
}
