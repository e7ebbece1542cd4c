// SPDX-License-Identifier: MIT
import { expect, test, type Page } from '@playwright/test';
import { drawPaddock, settled, tapAt, total } from './desk';

// A picture of 400 by 300 pixels, made in the browser itself.
async function png(page: Page): Promise<Buffer> {
  const url = await page.evaluate(() => {
    const canvas = document.createElement('canvas');
    [canvas.width, canvas.height] = [400, 300];
    const context = canvas.getContext('2d')!;
    context.fillStyle = '#3a7d44';
    context.fillRect(0, 0, 400, 300);
    context.fillStyle = '#d9c89a';
    context.fillRect(40, 40, 160, 120);
    return canvas.toDataURL('image/png');
  });
  return Buffer.from(url.split(',')[1] ?? '', 'base64');
}
// How green the paper is in the middle of the picture.
const greenAt = (page: Page, x: number, y: number) =>
  page.evaluate(
    ([x, y]) => {
      const canvas = document.querySelector('canvas')!;
      const [red, green] = canvas.getContext('2d')!.getImageData(Math.round(canvas.width * x!), Math.round(canvas.height * y!), 1, 1).data;
      return (green ?? 0) - (red ?? 0);
    },
    [x, y],
  );

test('lies behind the drawing, is scaled by two places, kept, undone and removed', async ({ page }, info) => {
  await drawPaddock(page);
  await page.getByRole('button', { name: 'Picture behind the drawing' }).click();
  await page.getByLabel('Choose a picture').setInputFiles({ name: 'yard.png', mimeType: 'image/png', buffer: await png(page) });
  await expect(page.getByText('Not to scale yet')).toBeVisible();
  await expect.poll(() => greenAt(page, 0.62, 0.62)).toBeGreaterThan(10);
  await page.getByRole('button', { name: 'Scale by two places' }).click();
  await tapAt(page, 0.4, 0.5);
  await expect(page.getByText('Tap the second place.')).toBeVisible();
  await tapAt(page, 0.5, 0.5);
  await page.getByLabel('They lie apart').fill('nonsense');
  await page.getByRole('button', { name: 'Scale it' }).click();
  await expect(page.getByRole('status').locator('p').last()).toContainText('Type a length');
  await page.getByLabel('They lie apart').fill('60 ft');
  await page.screenshot({ path: info.outputPath('scaling.png') });
  await page.getByRole('button', { name: 'Scale it' }).click();
  await expect(page.getByText('Scaled by a distance you typed')).toBeVisible();
  await page.keyboard.press('Escape');
  await page.waitForTimeout(400);
  await page.reload();
  await expect(total(page, 'posts')).toBeVisible();
  await page.getByRole('button', { name: 'Picture behind the drawing' }).click();
  await expect(page.getByText('Scaled by a distance you typed')).toBeVisible();
  await page.getByRole('button', { name: 'Remove the picture' }).click();
  await expect.poll(() => greenAt(page, 0.62, 0.62)).toBeLessThan(5);
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect(page.getByText('Scaled by a distance you typed')).toBeVisible();
});

test('is refused kindly when it is no picture', async ({ page }) => {
  await drawPaddock(page);
  const posts = await settled(total(page, 'posts'));
  await page.getByRole('button', { name: 'Picture behind the drawing' }).click();
  await page.getByLabel('Choose a picture').setInputFiles({ name: 'notes.png', mimeType: 'image/png', buffer: Buffer.from('not a picture') });
  await expect(page.getByText('notes.png is not a picture this browser can read')).toBeVisible();
  await expect(total(page, 'posts')).toHaveText(posts);
});
