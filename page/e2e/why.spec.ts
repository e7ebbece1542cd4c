// SPDX-License-Identifier: MIT
// Every figure can be asked; a finding is cured by one tap.
import AxeBuilder from '@axe-core/playwright';
import { expect, test, type Page } from '@playwright/test';
import { openExample, settled, tab, total } from './desk';

const why = (page: Page) => page.getByRole('dialog');

async function planned(page: Page): Promise<void> {
  await openExample(page);
  await settled(total(page, 'cost'));
  await tab(page, 'Results').click();
  await expect(page.getByRole('heading', { name: 'What it comes to' })).toBeVisible();
}

test('says why, goes deeper and comes back', async ({ page }, info) => {
  await planned(page);
  await total(page, 'cost').click();
  await expect(why(page).getByRole('heading', { name: 'Total' })).toBeVisible();
  await expect(why(page)).toContainText('materials + labour + overhead + profit + tax');
  await page.screenshot({ path: info.outputPath('why.png') });
  const { violations } = await new AxeBuilder({ page }).include('[role=dialog]').withTags(['wcag2a', 'wcag2aa', 'wcag21aa', 'wcag22aa']).analyze();
  expect(violations.map((row) => row.id)).toEqual([]);
  await why(page).getByRole('listitem').filter({ hasText: 'materials' }).getByRole('button').click();
  await expect(why(page).getByRole('heading', { name: 'Materials' })).toBeVisible();
  await why(page).getByRole('button', { name: 'Back' }).click();
  await expect(why(page).getByRole('heading', { name: 'Total' })).toBeVisible();
  await page.keyboard.press('Escape');
  await expect(why(page)).toBeHidden();
});

test('every dotted figure of every note is answered', async ({ page }) => {
  test.setTimeout(120_000);
  await planned(page);
  for (const note of ['Results', 'Cutting', 'Buying']) {
    const button = tab(page, note);
    if ((await button.getAttribute('aria-pressed')) !== 'true') await button.click();
    for (const summary of await page.getByRole('complementary').locator('summary').all()) await summary.click();
    const figures = await page.getByRole('complementary').locator('button.ask').all();
    expect(figures.length, note).toBeGreaterThan(3);
    // A dozen from all over the note: one row is asked like the next.
    for (const figure of figures.filter((_, index) => index % Math.ceil(figures.length / 12) === 0)) {
      await figure.evaluate((element: HTMLElement) => element.click());
      await expect(why(page).locator('.value')).toBeVisible();
      await expect(why(page)).not.toContainText('[');
    }
    await page.keyboard.press('Escape');
  }
});

// Where something is marked must be seen: inside the drawing, under no tool and under no note.
async function inSight(page: Page): Promise<void> {
  const marks = page.locator('path.named, path.measured');
  await expect(marks.first()).toBeAttached(); // a level line has no height, and counts as hidden
  await expect(async () => {
    const drawing = (await page.getByRole('application').boundingBox())!;
    const note = (await why(page).isVisible()) ? await why(page).boundingBox() : null;
    const over = (await page.getByRole('complementary').boundingBox())!;
    for (const mark of await marks.all()) {
      const box = (await mark.boundingBox())!;
      const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
      expect([x > drawing.x, x < drawing.x + drawing.width, y > drawing.y, y < drawing.y + drawing.height]).toEqual([true, true, true, true]);
      for (const cover of note ? [note, over] : [over])
        expect(x > cover.x && x < cover.x + cover.width && y > cover.y && y < cover.y + cover.height).toBe(false);
    }
  }).toPass({ timeout: 10_000 });
}

async function panAway(page: Page): Promise<void> {
  await page.getByRole('application').focus();
  for (let step = 0; step < 30; ++step) await page.keyboard.press('ArrowRight');
}

test('shows the place in the drawing, wherever the paper lies', async ({ page }) => {
  await planned(page);
  await panAway(page);
  await total(page, 'rails').click();
  await expect(why(page).locator('.value')).toBeVisible();
  await why(page).getByRole('group', { name: 'In the drawing' }).getByRole('button').first().click();
  await expect(why(page).getByRole('button', { pressed: true })).toHaveCount(1);
  await inSight(page);
  await page.keyboard.press('Escape');
  await expect(page.locator('path.named')).toHaveCount(0);
});

test('asks in the profile and of measured gaps', async ({ page }) => {
  await planned(page);
  await page.locator('.profile').getByRole('button').first().click();
  await expect(why(page)).toContainText('AP.');
  await inSight(page);
  await page.keyboard.press('Escape');
  await tab(page, 'Gaps').click();
  await page.getByRole('complementary').locator('button.ask').first().click();
  await expect(why(page).locator('.formula')).toContainText('step of the saw');
  await inSight(page);
});

test('cures a finding with one tap, and undo takes it back', async ({ page }, info) => {
  const job = {
    version: 1,
    name: 'Low',
    site: {
      points: [
        { id: 'A', east: '0 ft', north: '0 ft' },
        { id: 'B', east: '96 ft', north: '0 ft' },
      ],
      legs: [{ id: 'AB', from: 'A', to: 'B', fence: 'paddock' }],
    },
    choices: { fences: [{ id: 'paddock', animal: 'horse', height: '36 in', rails: 3, rail_pipe: '2-3/8 sch40', line_pipe: '2-3/8 sch40' }] },
  };
  await page.goto('./');
  await page.locator('input[type=file]').setInputFiles({ name: 'low.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(job)) });
  await expect(total(page, 'posts')).toBeVisible();
  await panAway(page);
  await tab(page, 'Results').click();
  const finding = page.locator('[data-code="grade.too_low"]').first();
  await finding.getByRole('button', { name: 'What can be done' }).click();
  await expect(finding.locator('.cure').first()).toBeVisible();
  await inSight(page);
  await page.screenshot({ path: info.outputPath('remedy.png') });
  await finding.locator('.cure').first().click();
  await expect(page.locator('[data-code="grade.too_low"]')).toHaveCount(0);
  await page.keyboard.press('Control+z');
  await expect(page.locator('[data-code="grade.too_low"]').first()).toBeVisible();
});

test('asks on the phone', async ({ page }, info) => {
  await page.setViewportSize({ width: 360, height: 800 });
  await openExample(page);
  await settled(total(page, 'cost'));
  await tab(page, 'Results').click();
  await page.getByRole('complementary').getByText('What can be done').first().click();
  await inSight(page);
  await total(page, 'posts').click();
  await expect(why(page).locator('.value')).toBeVisible();
  await page.screenshot({ path: info.outputPath('why-phone.png') });
  expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0);
});
