// SPDX-License-Identifier: MIT
import { readFile } from 'node:fs/promises';
import { expect, test } from '@playwright/test';
import { corner, drawPaddock, openExample, settled, startDrawing, tab, total } from './desk';

test('draws a paddock, drags a corner, undoes and redoes it', async ({ page }) => {
  await drawPaddock(page);
  const posts = await settled(total(page, 'posts'));
  const box = await corner(page, 'C').boundingBox();
  await page.mouse.move(box!.x + 8, box!.y + 8);
  await page.mouse.down();
  for (let step = 1; step <= 12; ++step) await page.mouse.move(box!.x + 8 + step * 9, box!.y + 8 - step * 6);
  await page.mouse.up();
  await expect(total(page, 'posts')).not.toHaveText(posts);
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect(total(page, 'posts')).toHaveText(posts);
  await page.getByRole('button', { name: 'Redo' }).click();
  await expect(total(page, 'posts')).not.toHaveText(posts);
});

test('shows the difference while a corner moves', async ({ page }) => {
  await drawPaddock(page);
  const box = await corner(page, 'C').boundingBox();
  await page.mouse.move(box!.x + 8, box!.y + 8);
  await page.mouse.down();
  await page.mouse.move(box!.x + 180, box!.y + 8, { steps: 6 });
  await expect(page.locator('.tally i').first()).toHaveText(/^[+−]/);
  await page.mouse.up();
  await expect(page.locator('.tally i')).toHaveCount(0);
});

test('takes typed lengths and bearings', async ({ page }) => {
  await startDrawing(page);
  for (const [length, bearing] of [
    ['120 ft', '90'],
    ['80 ft 6 in', '0'],
    ['36.5 m', '270'],
  ]) {
    const form = page.locator('form.next');
    await form.getByLabel('Length').fill(length!);
    await form.getByLabel('Bearing').fill(bearing!);
    await form.getByRole('button', { name: 'Add' }).click();
  }
  await expect(page.getByText('3 legs,')).toBeVisible();
  await page.getByRole('button', { name: 'A–B' }).click();
  await expect(page.getByLabel('Length').first()).toHaveValue('120 ft 0 in');
  await page.getByLabel('Length').first().fill('seven');
  await page.getByLabel('Length').first().blur();
  await expect(page.getByText('Type a length such as')).toBeVisible();
  await page.getByLabel('Length').first().fill('60 ft');
  await page.getByLabel('Length').first().blur();
  await expect(page.getByRole('button', { name: 'A–B 60 ft 0 in' })).toBeVisible();
});

test('moves a corner from the keyboard and deletes it', async ({ page }) => {
  await drawPaddock(page);
  await corner(page, 'C').focus();
  const before = await corner(page, 'C').getAttribute('aria-label');
  await page.keyboard.press('ArrowRight');
  await expect(corner(page, 'C')).not.toHaveAttribute('aria-label', before!);
  await page.keyboard.press('Delete');
  await expect(corner(page, 'C')).toHaveCount(0);
  await page.keyboard.press('Control+z');
  await expect(corner(page, 'C')).toHaveCount(1);
});

test('sets a gate and counts it', async ({ page }) => {
  await openExample(page);
  await page.getByRole('button', { name: 'A–P' }).click();
  const posts = Number(await settled(total(page, 'posts')));
  await page.getByRole('button', { name: 'Put a gate in' }).click();
  await expect(page.getByRole('heading', { name: 'Gate G5' })).toBeVisible();
  await page.getByRole('button', { name: 'Remove', exact: true }).click();
  await expect(total(page, 'posts')).toHaveText(String(posts));
});

test('saves a job that opens again as it was', async ({ page }, info) => {
  await openExample(page);
  const posts = await settled(total(page, 'posts'));
  const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'Save the job' }).click()]);
  const path = info.outputPath('job.json');
  await download.saveAs(path);
  expect(JSON.parse(await readFile(path, 'utf8')).version).toBe(1);
  await page.getByRole('button', { name: 'Close this job' }).click();
  await page.getByLabel('Choose a file').setInputFiles(path);
  await expect(total(page, 'posts')).toHaveText(posts);
});

test('shows what is saved against plain spacing, and searches only for the line as it is', async ({ page }) => {
  await openExample(page);
  await tab(page, 'Fence').click();
  await page.getByLabel('Divided into').selectOption('best');
  await tab(page, 'Cutting').click();
  await expect(page.getByText('Best so far')).toBeVisible();
  await expect(page.getByText('Saved against plain spacing')).toBeVisible();
  await corner(page, 'C').focus();
  await page.keyboard.press('ArrowRight');
  await expect(page.getByText('Best so far')).toHaveCount(0);
  await expect(page.getByText('Saved against plain spacing')).toBeVisible();
  const row = page.getByRole('definition').first().getByRole('button');
  await expect(row).toHaveText(/^\$[\d,.]+$/);
});

test('reads measured gaps and gives the cut', async ({ page }) => {
  await openExample(page);
  await tab(page, 'Gaps').click();
  const first = page.getByLabel('Rail 1, gap').first();
  await first.fill('60');
  await first.blur();
  await expect(page.getByText('Does not fit the others.')).toBeVisible();
  await first.fill('89 1/4');
  await first.blur();
  await expect(page.getByText('Cut to').first()).toBeVisible();
  await expect(page.getByText(/^1 of \d+ rails/)).toBeVisible();
});

test('goes from opening to a printed cut sheet of an own paddock in 25 taps or fewer', async ({ page }, info) => {
  let taps = 0;
  await page.exposeFunction('countTap', () => ++taps);
  await page.addInitScript(() => {
    addEventListener('pointerdown', () => void (window as unknown as { countTap: () => void }).countTap(), { capture: true });
    window.print = () => document.documentElement.setAttribute('data-printed', 'yes');
  });
  await drawPaddock(page);
  await tab(page, 'Sheets').click();
  await expect(page.getByRole('button', { name: 'Print' })).toBeEnabled();
  await page.getByRole('button', { name: 'Cut sheets only' }).click();
  await page.getByRole('button', { name: 'Print' }).click();
  await expect(page.locator('html[data-printed]')).toHaveCount(1);
  expect(taps).toBeGreaterThan(5);
  expect(taps).toBeLessThanOrEqual(25);
  const pdf = await page.pdf({ path: info.outputPath('cut.pdf'), preferCSSPageSize: true });
  const pages = await page.locator('.pages figure:not(.out)').count();
  expect((pdf.toString('latin1').match(/\/Type\s*\/Page\b/g) ?? []).length).toBe(pages);
});
