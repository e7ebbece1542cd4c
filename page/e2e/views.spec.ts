// SPDX-License-Identifier: MIT
import AxeBuilder from '@axe-core/playwright';
import { expect, test } from '@playwright/test';
import { openExample, tab } from './desk';

const NOTES = ['Line', 'Ground', 'Fence', 'Pipe', 'Figures', 'Results', 'Cutting', 'Buying', 'Sheets', 'Gaps', 'Progress'];

async function clean(page: import('@playwright/test').Page) {
  const { violations } = await new AxeBuilder({ page }).withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa']).analyze();
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

for (const night of [false, true]) {
  test.describe(night ? 'at night' : 'by day', () => {
    test.use({ colorScheme: night ? 'dark' : 'light' });

    test('the first page', async ({ page }, info) => {
      await page.goto('./');
      await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
      await page.screenshot({ path: info.outputPath('start.png') });
      await clean(page);
    });

    test('every note', async ({ page }, info) => {
      test.setTimeout(400_000); // axe reads thousands of nodes in each note
      await openExample(page);
      for (const note of NOTES) {
        const button = tab(page, note);
        if ((await button.getAttribute('aria-pressed')) !== 'true') await button.click();
        await expect(page.getByRole('complementary').getByRole('heading').first()).toBeVisible();
        if (note === 'Sheets') await expect(page.getByRole('img', { name: 'Sheet:' }).first()).toBeVisible();
        await page.screenshot({ path: info.outputPath(`${note}.png`) });
        await clean(page);
        const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
        expect(wide, `${note} is wider than the window`).toBeLessThanOrEqual(0);
      }
    });
  });
}
