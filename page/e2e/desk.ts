// SPDX-License-Identifier: MIT
// What several tests do: open the page, wait for the engine, read the tally, draw.
import { expect, type Locator, type Page } from '@playwright/test';

export const total = (page: Page, key: string) => page.locator(`[data-total="${key}"]`);

export async function openExample(page: Page): Promise<void> {
  await page.goto('./');
  await page.getByRole('button', { name: 'Open the worked example' }).click();
  await expect(total(page, 'posts')).not.toHaveText('0');
}

export async function startDrawing(page: Page): Promise<void> {
  await page.goto('./');
  await page.getByRole('button', { name: 'Draw a line' }).click();
  await expect(page.getByText('Tap where the first corner stands.')).toBeVisible();
}

// Corners as shares of the drawing's box; the last tap closes on the first.
export const PADDOCK: [number, number][] = [
  [0.25, 0.75],
  [0.25, 0.3],
  [0.7, 0.3],
  [0.7, 0.75],
  [0.25, 0.75],
];

export async function tapAt(page: Page, x: number, y: number): Promise<void> {
  const box = await page.getByRole('application').boundingBox();
  if (!box) throw new Error('no drawing');
  await page.mouse.click(box.x + box.width * x, box.y + box.height * y);
}

export async function drawPaddock(page: Page): Promise<void> {
  await startDrawing(page);
  for (const [x, y] of PADDOCK) await tapAt(page, x, y);
  await expect(total(page, 'posts')).toBeVisible();
}

export const corner = (page: Page, name: string) => page.getByRole('button', { name: new RegExp(`^Corner ${name},`) });
export const tab = (page: Page, name: string) => page.getByRole('navigation').getByRole('button', { name });

// A figure once the plan has caught up with the line: the same text at two looks half a second apart.
export async function settled(figure: Locator): Promise<string> {
  let last = '';
  await expect(async () => {
    const now = (await figure.textContent()) ?? '';
    const same = now !== '' && now === last;
    last = now;
    expect(same).toBe(true);
  }).toPass({ intervals: [500], timeout: 20_000 });
  return last;
}
