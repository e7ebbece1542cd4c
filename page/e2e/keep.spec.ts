// SPDX-License-Identifier: MIT
import { existsSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from '@playwright/test';
import { corner, drawPaddock, openExample, settled, total } from './desk';

test('keeps the job when the tab is killed', async ({ context, page }) => {
  await drawPaddock(page);
  await corner(page, 'C').focus();
  await page.keyboard.press('ArrowRight');
  const label = await corner(page, 'C').getAttribute('aria-label');
  const posts = await settled(total(page, 'posts'));
  await page.waitForTimeout(300);
  await page.close({ runBeforeUnload: false });
  const next = await context.newPage();
  await next.goto('./');
  await expect(total(next, 'posts')).toHaveText(posts);
  await expect(corner(next, 'C')).toHaveAttribute('aria-label', label!);
});

test('works without a network after the first visit', async ({ context, page }) => {
  await openExample(page);
  await page.evaluate(() => navigator.serviceWorker.ready);
  const posts = await settled(total(page, 'posts'));
  await context.setOffline(true);
  await page.reload();
  await expect(total(page, 'posts')).toHaveText(posts);
});

test('asks no other origin', async ({ page, baseURL }) => {
  const foreign: string[] = [];
  page.on('request', (request) => {
    if (![baseURL ?? 'no address', 'data:', 'blob:'].some((origin) => request.url().startsWith(origin))) foreign.push(request.url());
  });
  await openExample(page);
  expect(foreign).toEqual([]);
});

test('is carried in less than 1.5 MB and can be installed', async ({ page }) => {
  const folder = process.env.PAGE_OUT ?? 'dist';
  const carried = readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && !/\.(gz|br)$/.test(entry.name))
    .map((entry) => join(entry.parentPath, entry.name))
    .reduce((sum, path) => sum + statSync(existsSync(`${path}.gz`) ? `${path}.gz` : path).size, 0);
  console.log(`${(carried / 1e6).toFixed(2)} MB carried, by gzip`);
  expect(carried).toBeLessThan(1_500_000);
  await page.goto('./');
  await page.evaluate(() => navigator.serviceWorker.ready);
  const session = await page.context().newCDPSession(page);
  const { installabilityErrors } = await session.send('Page.getInstallabilityErrors');
  expect(installabilityErrors.map((row) => row.errorId)).toEqual(['in-incognito']); // the browser under test is
});

// Two seconds on a machine with nothing else to do; the limit leaves room for other work beside the test.
test('shows the first plan soon after opening', async ({ page }) => {
  await openExample(page);
  await page.waitForTimeout(300);
  await page.reload();
  const began = Date.now();
  await page.reload();
  await expect(total(page, 'posts')).toBeVisible({ timeout: 8000 });
  console.log(`first plan ${Date.now() - began} ms after a reload`);
});

test.describe('bad input leaves the job as it is', () => {
  for (const [what, name, bytes, said] of [
    ['a photo', 'photo.json', Buffer.from([0xff, 0xd8, 0xff, 0xe0, 0, 16, 74, 70, 73, 70, 0, 1, 2, 0]), 'Your work is as it was'],
    ['a newer job', 'newer.json', Buffer.from('{"version": 7, "site": {}}'), 'newer Railwright'],
    ['a broken job', 'broken.json', Buffer.from('{"version": 1, "site": {"points": [{"id": "A"}]}}'), ''],
    ['a broken track', 'track.gpx', Buffer.from('<gpx><trk><trkseg><trkpt lat="x"'), ''],
    ['an empty file', 'empty.csv', Buffer.from(''), ''],
  ] as [string, string, Buffer, string][]) {
    test(what, async ({ page }) => {
      await openExample(page);
      const posts = await settled(total(page, 'posts'));
      const transfer = await page.evaluateHandle(
        ({ name, data }) => {
          const transfer = new DataTransfer();
          transfer.items.add(new File([new Uint8Array(data)], name));
          return transfer;
        },
        { name, data: [...bytes] },
      );
      await page.locator('body').dispatchEvent('drop', { dataTransfer: transfer });
      await expect(page.getByRole('status').locator('p')).toContainText(said || /\w{3}/);
      await expect(total(page, 'posts')).toHaveText(posts);
    });
  }
});

test('opens a walked track dropped on the page', async ({ page }) => {
  const place = (lat: number, lon: number) => `<rtept lat="${lat}" lon="${lon}"><ele>200</ele></rtept>`;
  const gpx = `<?xml version="1.0"?><gpx version="1.1" creator="test" xmlns="http://www.topografix.com/GPX/1/1"><rte><name>Walk</name>${place(45, -100)}${place(45.0005, -100)}${place(45.0005, -99.9993)}</rte></gpx>`;
  await page.goto('./');
  await page.getByLabel('Choose a file').setInputFiles({ name: 'walk.gpx', mimeType: 'application/gpx+xml', buffer: Buffer.from(gpx) });
  await expect(total(page, 'posts')).toBeVisible();
  await expect(page.getByText('2 legs,')).toBeVisible();
});
