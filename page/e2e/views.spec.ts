// SPDX-License-Identifier: MIT
import AxeBuilder from '@axe-core/playwright';
import { expect, test, type Page } from '@playwright/test';
import { openExample, tab } from './desk';

const NOTES = ['Line', 'Ground', 'Fence', 'Pipe', 'Figures', 'Results', 'Cutting', 'Buying', 'Sheets', 'Gaps', 'Progress'];

// The drawing is read once, with the first note; afterwards only what changed is, or axe would read thousands of nodes eleven times.
async function clean(page: Page, part?: string) {
  const axe = new AxeBuilder({ page }).withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa']);
  const { violations } = await (part ? axe.include(part) : axe).analyze();
  expect(
    violations.map(
      (row) =>
        `${row.id}: ${row.nodes
          .map((node) => node.target.join(' '))
          .slice(0, 3)
          .join(', ')}`,
    ),
  ).toEqual([]);
}

async function fits(page: Page, what: string) {
  const wide = await page.evaluate(() => {
    const sheet = document.querySelector('.sheet');
    return Math.max(document.documentElement.scrollWidth - innerWidth, sheet ? sheet.scrollWidth - sheet.clientWidth : 0);
  });
  expect(wide, `${what} is wider than its place`).toBeLessThanOrEqual(0);
}

for (const night of [false, true]) {
  test.describe(night ? 'at night' : 'by day', () => {
    test.use({ colorScheme: night ? 'dark' : 'light' });

    test('the first page and a walk', async ({ page, context }, info) => {
      await page.goto('./');
      await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
      await page.screenshot({ path: info.outputPath('start.png') });
      await clean(page);
      await context.grantPermissions(['geolocation']);
      await context.setGeolocation({ latitude: 45, longitude: -100, accuracy: 4 });
      await page.getByRole('button', { name: 'Start walking' }).click();
      await expect(page.getByText('± 14 ft')).toBeVisible();
      await page.screenshot({ path: info.outputPath('walk.png') });
      await clean(page);
    });

    test('every note', async ({ page }, info) => {
      test.setTimeout(400_000);
      await openExample(page);
      for (const [index, note] of NOTES.entries()) {
        const button = tab(page, note);
        if ((await button.getAttribute('aria-pressed')) !== 'true') await button.click();
        await expect(page.getByRole('complementary').getByRole('heading').first()).toBeVisible();
        if (note === 'Sheets') await expect(page.getByRole('img', { name: 'Sheet:' }).first()).toBeVisible();
        await page.locator('aside details').evaluateAll((parts) => parts.forEach((part) => part.setAttribute('open', '')));
        await page.screenshot({ path: info.outputPath(`${note}.png`) });
        await clean(page, index === 0 ? undefined : 'aside');
        await fits(page, note);
      }
      await page.getByRole('button', { name: 'Picture behind the drawing' }).click();
      await expect(page.getByRole('button', { name: 'Choose a picture' })).toBeVisible();
      await clean(page, 'aside');
    });
  });
}
