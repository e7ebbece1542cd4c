// SPDX-License-Identifier: MIT
// A planner that dies, a browser without room, files of other kinds: a kind message, and the job is kept.
import { readFile } from 'node:fs/promises';
import { expect, test, type Page } from '@playwright/test';
import { corner, openExample, settled, total } from './desk';

const said = (page: Page) => page.getByRole('status').locator('p').first();

async function nudge(page: Page): Promise<void> {
  await corner(page, 'C').focus();
  await page.keyboard.press('ArrowRight');
}

test('a planner that dies is started again and the job is kept', async ({ page }) => {
  await openExample(page);
  const posts = await settled(total(page, 'posts'));
  for (const worker of page.workers()) {
    await worker.evaluate(() => {
      self.onmessage = () => {
        throw new Error('gone');
      };
    });
  }
  await nudge(page);
  await expect(said(page)).toContainText('Your job is kept');
  await page.getByRole('button', { name: 'Close', exact: true }).click();
  await page.keyboard.press('Control+z');
  await expect(total(page, 'posts')).toHaveText(posts);
  await nudge(page);
  await settled(total(page, 'posts'));
  await expect(corner(page, 'C')).toBeVisible();
});

test('a browser without room says so and goes on', async ({ page }) => {
  await page.addInitScript(() => {
    IDBObjectStore.prototype.put = () => {
      throw new DOMException('full', 'QuotaExceededError');
    };
  });
  await openExample(page);
  await expect(said(page)).toContainText('no room to keep the job');
  const label = await corner(page, 'C').getAttribute('aria-label');
  await nudge(page);
  await expect(corner(page, 'C')).not.toHaveAttribute('aria-label', label!);
  await expect(total(page, 'posts')).toBeVisible();
});

async function bring(page: Page, name: string, text: string): Promise<void> {
  await page.goto('./');
  await page.locator('input[type=file]').setInputFiles({ name, mimeType: 'text/plain', buffer: Buffer.from(text) });
}

test('takes a KML line', async ({ page }) => {
  const places = '-100,45,200 -100,45.0005,200 -99.9993,45.0005,200';
  await bring(
    page,
    'walk.kml',
    `<?xml version="1.0"?><kml xmlns="http://www.opengis.net/kml/2.2"><Document><Placemark><LineString><coordinates>${places}</coordinates></LineString></Placemark></Document></kml>`,
  );
  await expect(total(page, 'posts')).toBeVisible();
  await expect(page.getByText('2 legs,')).toBeVisible();
});

test('takes a GeoJSON line', async ({ page }) => {
  const line = {
    type: 'Feature',
    properties: {},
    geometry: {
      type: 'LineString',
      coordinates: [
        [-100, 45],
        [-100, 45.0005],
        [-99.9993, 45.0005],
      ],
    },
  };
  await bring(page, 'walk.geojson', JSON.stringify({ type: 'FeatureCollection', features: [line] }));
  await expect(total(page, 'posts')).toBeVisible();
});

test('takes surveyed points from a table', async ({ page }) => {
  await bring(page, 'points.csv', 'name,east_ft,north_ft\nA,0,0\nB,96,0\nC,96,64\n');
  await expect(total(page, 'posts')).toBeVisible();
  await expect(page.getByText('2 legs,')).toBeVisible();
});

for (const [what, name, text] of [
  ['a KML without a line', 'empty.kml', '<kml xmlns="http://www.opengis.net/kml/2.2"><Document/></kml>'],
  ['a table of something else', 'cows.csv', 'cow,weight\nBess,500\n'],
  ['a newer job', 'newer.json', '{"version": 9, "site": {}}'],
] as const) {
  test(`refuses ${what} kindly and stays`, async ({ page }) => {
    await bring(page, name, text);
    await expect(said(page)).toContainText(/\w{3}/);
    await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
  });
}

test('shows how far the proof has come and drops it when the line moves', async ({ page }) => {
  await openExample(page);
  await page.getByRole('navigation').getByRole('button', { name: 'Cutting' }).click();
  await nudge(page);
  await settled(total(page, 'cost'));
  await expect(page.getByRole('heading', { name: 'Cutting' })).toBeVisible();
  await expect(page.getByText(/Proved: no way of cutting costs less|No way of cutting costs less than/)).toBeVisible();
});

test('saves the stakes for an instrument', async ({ page }) => {
  await openExample(page);
  await settled(total(page, 'posts'));
  await page.getByRole('navigation').getByRole('button', { name: 'Sheets' }).click();
  await page.getByLabel('Kind of file').selectOption('dxf');
  const saving = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save the stakes' }).click();
  const saved = await saving;
  expect(saved.suggestedFilename()).toMatch(/\.dxf$/);
  const dxf = await readFile(await saved.path(), 'utf8');
  expect(dxf).toContain('SECTION');
  expect(dxf).toContain('AP1');
});
