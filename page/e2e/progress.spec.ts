// SPDX-License-Identifier: MIT
import { readFile } from 'node:fs/promises';
import { expect, test } from '@playwright/test';
import { openExample, settled, tab, total } from './desk';

test('marks posts, rails and bays, in the list and in the drawing, and takes it back', async ({ page }, info) => {
  await openExample(page);
  await settled(total(page, 'posts'));
  await tab(page, 'Progress').click();
  const posts = page.getByRole('button', { name: /of \d+ posts set/ });
  await expect(posts).toContainText('0 of');
  const sticks = Number(await total(page, 'sticks').textContent());
  await page.getByRole('checkbox').nth(1).check();
  await expect(posts).toContainText('1 of');
  await expect(page.getByLabel(/stands at/)).toBeVisible();
  await page.getByRole('button', { name: /are set$/ }).click();
  await expect(posts).not.toContainText('1 of');
  await expect.poll(async () => Number(await total(page, 'sticks').textContent())).toBeLessThan(sticks);
  await page.screenshot({ path: info.outputPath('done.png') });
  await page.getByRole('button', { name: /rails cut/ }).click();
  await page.getByRole('checkbox').nth(1).check();
  await expect(page.getByRole('button', { name: /rails cut/ })).toContainText('1 of');
  await page.getByRole('button', { name: /bays done/ }).click();
  const bay = page.getByRole('listitem').first();
  await bay.getByRole('checkbox').check();
  await expect(page.getByRole('button', { name: /bays done/ })).toContainText('1 of');
  const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'Save the job' }).click()]);
  const { field } = JSON.parse(await readFile(await download.path(), 'utf8'));
  expect(field.posts.length).toBeGreaterThan(3);
  expect([field.cut.length, field.done.length]).toEqual([1, 1]);
  for (let step = 0; step < 4; ++step) await page.getByRole('button', { name: 'Undo' }).click();
  await expect(posts).toContainText('0 of');
});

test('ticks off a post where it is tapped in the drawing', async ({ page }) => {
  await openExample(page);
  await settled(total(page, 'posts'));
  await page.getByRole('button', { name: 'Tick off what is done' }).click();
  const corner = (await page.getByRole('button', { name: /^Corner C,/ }).boundingBox())!;
  await page.mouse.click(corner.x + 8, corner.y + 8);
  await expect(page.getByRole('button', { name: /posts set/ })).toContainText('1 of');
  await page.mouse.click(corner.x + 8, corner.y + 8);
  await expect(page.getByRole('button', { name: /posts set/ })).toContainText('0 of');
});
