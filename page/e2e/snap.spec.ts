// SPDX-License-Identifier: MIT
import { expect, test } from '@playwright/test';
import { corner, startDrawing, total } from './desk';

test('draws a rectangle by hand: square, as long as the leg across, closed', async ({ page }) => {
  await startDrawing(page);
  const box = (await page.getByRole('application').boundingBox())!;
  const tap = (x: number, y: number) => page.mouse.click(box.x + x, box.y + y);
  await tap(300, 400);
  await tap(303, 150); // nearly north
  await tap(620, 154); // nearly square
  await page.mouse.move(box.x + 616, box.y + 396);
  await expect(page.getByText('square, square')).toBeVisible();
  await tap(616, 396);
  await tap(303, 402);
  await expect(total(page, 'posts')).toBeVisible();
  const [north, south] = [page.getByRole('button', { name: /^B–C / }), page.getByRole('button', { name: /^D–A / })];
  const length = ((await north.textContent()) ?? '').replace('B–C', '');
  expect(((await south.textContent()) ?? '').replace('D–A', '')).toBe(length);
  expect(length).toMatch(/ 0 in/); // whole feet from afar
});

test('works whole from the keyboard: cross, corners, turn from the leg before', async ({ page }) => {
  await startDrawing(page);
  await page.getByRole('application').focus();
  await page.keyboard.press('ArrowLeft');
  await page.keyboard.press('Enter');
  for (let step = 0; step < 8; ++step) await page.keyboard.press('ArrowUp');
  await page.keyboard.press('Enter');
  await expect(corner(page, 'B')).toBeVisible();
  await page.keyboard.type('60 ft');
  await page.keyboard.press('Tab');
  await page.keyboard.type('R 90');
  await page.keyboard.press('Enter');
  await expect(corner(page, 'C')).toBeVisible();
  await expect(page.getByRole('button', { name: 'B–C 60 ft 0 in' })).toBeVisible();
  await page.getByRole('button', { name: 'Add a no-dig zone' }).click();
  const zone = page.getByRole('button', { name: /^No-dig zone Z1/ });
  await zone.focus();
  const east = page.getByLabel('East', { exact: true }).first();
  const before = await east.inputValue();
  await page.keyboard.press('ArrowRight');
  await expect(east).not.toHaveValue(before);
  await page.keyboard.press('Delete');
  await expect(zone).toHaveCount(0);
  await page.keyboard.press('Control+z');
  await expect(zone).toHaveCount(1);
});
