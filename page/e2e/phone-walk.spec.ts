// SPDX-License-Identifier: MIT
// A walk with the phone's own position: mocked fixes, because the browser under test stands still.
import { readFile } from 'node:fs/promises';
import { expect, test, type BrowserContext, type Page } from '@playwright/test';
import { total } from './desk';

const HERE = { latitude: 45, longitude: -100 };
// Metres in a degree at 45 degrees north on the WGS 84 ellipsoid: its radii of curvature there are 6,367,382 m and 6,388,838 m.
const NORTHWARD = 111_131.8;
const EASTWARD = 78_846.8;
const metres = (north: number, east: number, accuracy = 4) => ({
  latitude: HERE.latitude + north / NORTHWARD,
  longitude: HERE.longitude + east / EASTWARD,
  accuracy,
});

async function setOut(page: Page) {
  await page.goto('./');
  await page.getByRole('button', { name: 'Start walking' }).tap();
}
async function stand(context: BrowserContext, page: Page, north: number, east: number) {
  await context.setGeolocation(metres(north, east));
  const corner = page.getByRole('button', { name: 'Corner here' });
  await expect(corner).toBeEnabled();
  await expect(page.getByText('± 14 ft')).toBeVisible();
}

test('marks corners while standing, leaves poor positions out, makes a fence of it', async ({ context, page }, info) => {
  await context.grantPermissions(['geolocation']);
  await page.clock.install();
  await context.setGeolocation(metres(0, 0));
  await setOut(page);
  for (const [at, [north, east]] of [
    [0, 0],
    [60, 0],
    [60, 45],
    [0, 45],
  ].entries() as IterableIterator<[number, [number, number]]>) {
    await page.clock.fastForward(20_000);
    await stand(context, page, north, east);
    if (at === 2) {
      await context.setGeolocation(metres(300, 300, 80));
      await expect(page.getByText('too rough to keep')).toBeVisible();
      await stand(context, page, north, east);
    }
    await page.getByRole('button', { name: 'Corner here' }).tap();
    await expect(page.getByText(`${at + 1} corners,`)).toBeVisible();
  }
  await expect(page.getByText('1 too poor, left out')).toBeVisible();
  await page.screenshot({ path: info.outputPath('walk.png') });
  await page.getByRole('button', { name: 'Finish, close' }).tap();
  await expect(total(page, 'posts')).toBeVisible();
  await expect(page.getByText('4 legs, 689 ft')).toBeVisible(); // 210 m
  const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'Save the job' }).tap()]);
  const job = JSON.parse(await readFile(await download.path(), 'utf8'));
  expect(job.site.points).toHaveLength(4);
  expect(job.site.position_accuracy).toBe('3 m'); // the engine's for a phone; the fixes said 2 m
  expect(job.site.origin.latitude_deg).toBeCloseTo(45, 5);
});

test('finds the corners in the track when none was marked; a killed tab keeps the walk', async ({ context, page }) => {
  await context.grantPermissions(['geolocation']);
  await context.setGeolocation(metres(0, 0));
  await setOut(page);
  const step = async (north: number, east: number) => {
    await context.setGeolocation(metres(north, east));
    await page.waitForTimeout(30);
  };
  for (let north = 4; north <= 80; north += 4) await step(north, 0.3 * Math.sin(north));
  await page.getByRole('button', { name: 'Pause' }).tap();
  await expect(page.getByText('Paused')).toBeVisible();
  await page.reload();
  await page.getByRole('button', { name: 'Go on with the walk begun' }).tap();
  for (let east = 4; east <= 80; east += 4) await step(80 + 0.3 * Math.sin(east), east);
  await page.getByRole('button', { name: 'Finish, find the corners' }).tap();
  await expect(total(page, 'posts')).toBeVisible();
  await expect(page.getByText('2 legs,')).toBeVisible();
});

test('says kindly that it may not, and goes on when it may', async ({ context, page }) => {
  await setOut(page);
  await expect(page.getByText('may not use its position here')).toBeVisible();
  await context.grantPermissions(['geolocation']);
  await context.setGeolocation(metres(0, 0, 3));
  await page.getByRole('button', { name: 'Go on', exact: true }).tap();
  await expect(page.getByText('± 10 ft')).toBeVisible();
  await page.getByRole('button', { name: 'Leave the walk' }).tap();
  await page.getByRole('button', { name: 'Throw it away' }).tap();
  await expect(page.getByRole('button', { name: 'Go on with the walk begun' })).toHaveCount(0);
});
