// SPDX-License-Identifier: MIT
import { expect, test } from '@playwright/test';
import { corner, openExample, tab, total } from './desk';

test('draws with a thumb', async ({ page }) => {
  await page.goto('./');
  await page.getByRole('button', { name: 'Draw a line' }).tap();
  const box = (await page.getByRole('application').boundingBox())!;
  for (const [x, y] of [
    [0.3, 0.8],
    [0.3, 0.4],
    [0.8, 0.4],
    [0.8, 0.8],
    [0.3, 0.8],
  ] as const)
    await page.touchscreen.tap(box.x + box.width * x, box.y + box.height * y);
  await expect(total(page, 'posts')).toBeVisible();
});

test('drags a corner with a finger', async ({ page }) => {
  await openExample(page);
  const before = await corner(page, 'C').getAttribute('aria-label');
  const box = (await corner(page, 'C').boundingBox())!;
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  const session = await page.context().newCDPSession(page);
  const touch = (type: string, points: { x: number; y: number }[]) => session.send('Input.dispatchTouchEvent', { type, touchPoints: points } as never);
  await touch('touchStart', [{ x, y }]);
  for (let step = 1; step <= 6; ++step) await touch('touchMove', [{ x: x - step * 6, y: y + step * 6 }]);
  await touch('touchEnd', []);
  await expect(corner(page, 'C')).not.toHaveAttribute('aria-label', before!);
});

test('raises and lowers the drawer', async ({ page }) => {
  await openExample(page);
  const height = async () => (await page.getByRole('complementary').boundingBox())!.height;
  const half = await height();
  await page.getByRole('button', { name: 'Raise or lower' }).tap();
  await expect.poll(height).toBeGreaterThan(half + 50);
  await page.getByRole('button', { name: 'Raise or lower' }).tap();
  await expect.poll(height).toBeLessThan(60);
  await tab(page, 'Profile').tap();
  await expect(page.getByRole('img', { name: /^Leg / })).toBeVisible();
});

test('pinches the paper larger and carries it with two fingers', async ({ page }) => {
  await openExample(page);
  const bar = page.locator('g.bar text');
  const before = await bar.textContent();
  const north = async () => (await corner(page, 'C').boundingBox())!.x - (await corner(page, 'A').boundingBox())!.x;
  const wide = await north();
  const box = (await page.getByRole('application').boundingBox())!;
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  const session = await page.context().newCDPSession(page);
  const touch = (type: string, spread: number) =>
    session.send('Input.dispatchTouchEvent', {
      type,
      touchPoints:
        type === 'touchEnd'
          ? []
          : [
              { x: x - spread, y, id: 0 },
              { x: x + spread, y, id: 1 },
            ],
    } as never);
  await touch('touchStart', 30);
  for (let spread = 36; spread <= 90; spread += 6) await touch('touchMove', spread);
  await touch('touchEnd', 0);
  expect((await north()) / wide).toBeCloseTo(3, 0);
  await expect(bar).not.toHaveText(before ?? '');
});

test('ticks posts off with a thumb', async ({ page }) => {
  await openExample(page);
  await page.getByRole('button', { name: 'Tick off what is done' }).tap();
  const box = (await corner(page, 'C').boundingBox())!;
  await page.touchscreen.tap(box.x + box.width / 2, box.y + box.height / 2);
  await expect(page.getByRole('button', { name: /posts set/ })).toContainText('1 of');
});
