// SPDX-License-Identifier: MIT
// Every view, looked at (the pictures stand in test-results) and read by axe. All rules read each view once, at desktop size by day; by night only colours
// differ, and on the phone only what follows from the layout, so only those rules read it again.
import AxeBuilder from '@axe-core/playwright';
import { expect, test, type Page } from '@playwright/test';
import { openExample, tab } from './desk';

const NOTES = ['Line', 'Ground', 'Fence', 'Pipe', 'Figures', 'Results', 'Cutting', 'Buying', 'Sheets', 'Gaps', 'Progress'];
const ALL = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];
const OF_LAYOUT = ['color-contrast', 'target-size', 'scrollable-region-focusable', 'link-in-text-block', 'meta-viewport', 'avoid-inline-spacing'];

async function clean(page: Page, rules: 'all' | 'layout' | 'colour', part?: string) {
  let axe = new AxeBuilder({ page }).setLegacyMode(); // there are no frames to gather from
  axe = rules === 'all' ? axe.withTags(ALL) : axe.withRules(rules === 'layout' ? OF_LAYOUT : ['color-contrast']);
  const { violations } = await (part ? axe.include(part) : axe).analyze();
  const said = violations.map((row) => `${row.id}: ${row.nodes.slice(0, 3).map((node) => node.target.join(' '))}`);
  expect(said).toEqual([]);
}

async function fits(page: Page, what: string) {
  const wide = await page.evaluate(() => {
    const sheet = document.querySelector('.sheet');
    return Math.max(document.documentElement.scrollWidth - innerWidth, sheet ? sheet.scrollWidth - sheet.clientWidth : 0);
  });
  expect(wide, `${what} is wider than its place`).toBeLessThanOrEqual(0);
}

const isPhone = (page: Page) => (page.viewportSize()?.width ?? 0) < 760;

async function byNight(page: Page, picture: string, part?: string) {
  const dark = (on: boolean) => page.evaluate((on) => document.documentElement.toggleAttribute('data-night', on), on);
  await dark(true);
  await page.screenshot({ path: picture });
  await clean(page, 'colour', part);
  await dark(false);
}

test('the first page and a walk', async ({ page, context }, info) => {
  const rules = isPhone(page) ? 'layout' : 'all';
  await page.goto('./');
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
  await page.screenshot({ path: info.outputPath('start.png') });
  await clean(page, rules);
  await fits(page, 'the first page');
  if (!isPhone(page)) await byNight(page, info.outputPath('start-night.png'));
  await context.grantPermissions(['geolocation']);
  await context.setGeolocation({ latitude: 45, longitude: -100, accuracy: 4 });
  await page.getByRole('button', { name: 'Start walking' }).click();
  await expect(page.getByText('± 14 ft')).toBeVisible();
  await page.screenshot({ path: info.outputPath('walk.png') });
  await clean(page, rules);
  await fits(page, 'a walk');
  if (!isPhone(page)) await byNight(page, info.outputPath('walk-night.png'));
});

// The drawing is read with the first note only, or axe would read thousands of nodes eleven times.
test('every note', async ({ page }, info) => {
  test.setTimeout(180_000);
  await openExample(page);
  await clean(page, isPhone(page) ? 'layout' : 'all');
  for (const note of NOTES) {
    const button = tab(page, note);
    if ((await button.getAttribute('aria-pressed')) !== 'true') await button.click();
    await expect(page.getByRole('complementary').getByRole('heading').first()).toBeVisible();
    if (note === 'Sheets') await expect(page.getByRole('img', { name: 'Sheet:' }).first()).toBeVisible();
    await page.locator('aside details').evaluateAll((parts) => parts.forEach((part) => part.setAttribute('open', '')));
    await page.screenshot({ path: info.outputPath(`${note}.png`) });
    if (note === 'Cutting') await page.getByRole('combobox', { name: 'Show' }).selectOption('4-1/2 sch40'); // some sticks stand for all two hundred
    await clean(page, isPhone(page) ? 'layout' : 'all', 'aside');
    await fits(page, note);
    if (!isPhone(page)) await byNight(page, info.outputPath(`${note}-night.png`), 'aside');
  }
});

// What the Line note shows of the thing in hand.
test('every thing in hand', async ({ page }, info) => {
  await openExample(page);
  const things: [string, RegExp][] = [
    ['corner', /^Corner C,/],
    ['gate', /^Gate G2/],
    ['zone', /^No-dig zone/],
  ];
  for (const [name, label] of things) {
    await page.getByRole('button', { name: label }).focus();
    await expect(page.getByRole('complementary').getByRole('heading', { level: 2 })).toContainText(new RegExp(name, 'i'));
    await page.screenshot({ path: info.outputPath(`${name}.png`) });
    await clean(page, isPhone(page) ? 'layout' : 'all', 'aside');
    await fits(page, name);
  }
  await tab(page, 'Line').focus();
  await page.getByRole('button', { name: 'Draw fence' }).click();
  await page.screenshot({ path: info.outputPath('draw.png') });
  await clean(page, isPhone(page) ? 'layout' : 'all', 'main');
  await page.getByRole('button', { name: 'Picture behind the drawing' }).click();
  await expect(page.getByRole('button', { name: 'Choose a picture' })).toBeVisible();
  await clean(page, isPhone(page) ? 'layout' : 'all', 'aside');
});
