// SPDX-License-Identifier: MIT
import { expect, test } from '@playwright/test';
import { openExample, settled, tab, total } from './desk';

test('a post taken anywhere is seen everywhere: plan, profile and list', async ({ page }) => {
  await openExample(page);
  await settled(total(page, 'posts'));
  await tab(page, 'Progress').click();
  const profile = page.getByRole('img', { name: /^Leg AP from its side/ });
  await expect(page.getByText(/^Heights drawn \d+ times\.|^Heights as they are\./)).toBeVisible();
  await expect(page.getByText('Clear under the fence:')).toBeVisible();
  await expect(profile.locator('text.clear').first()).toHaveText(/in$/);
  const box = (await profile.boundingBox())!;
  await page.mouse.move(box.x + box.width * 0.3, box.y + box.height / 2);
  const named = page.locator('.profile .bar b');
  const name = (await named.textContent()) ?? '';
  expect(name).toMatch(/^(AP\d+|G1.)$/);
  await expect(page.locator('path.ring.inhand')).toHaveCount(1);
  await expect(page.getByRole('complementary').locator('li.on')).toContainText(name);
  await page.getByRole('complementary').getByRole('listitem').nth(1).hover();
  await expect(named).toHaveText('AP1');
  await expect(profile.locator('path.picked')).toHaveCount(1);
});
