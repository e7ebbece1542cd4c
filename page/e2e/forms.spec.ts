// SPDX-License-Identifier: MIT
import { expect, test, type Page } from '@playwright/test';
import { openExample, settled, tab, total } from './desk';

const unfold = (page: Page, name: string) => page.locator('summary', { hasText: name }).click();

test('shows the source of a figure, takes one of your own and goes back', async ({ page }) => {
  await openExample(page);
  await tab(page, 'Figures').click();
  await page.getByLabel('Catalogue').selectOption('animals');
  await page.getByRole('combobox', { name: 'Row', exact: true }).selectOption('donkey');
  await expect(page.getByText('U.S. Bureau of Land Management')).toBeVisible();
  await page.getByLabel('Fence at least').fill('66');
  await page.getByLabel('Fence at least').blur();
  await expect(page.getByLabel('Fence at least')).toHaveValue('66 ft'); // a bare number is in the job's unit
  await page.getByLabel('Fence at least').fill('66 in');
  await page.getByLabel('Fence at least').blur();
  await expect(page.getByText('Your figures. Own figures of this job')).toBeVisible();
  await tab(page, 'Fence').click();
  await expect(page.getByText('At least 66 in for this animal.')).toBeVisible();
  await page.getByRole('button', { name: 'See or change the figures' }).first().click();
  await page.getByRole('button', { name: 'Back to the default row' }).click();
  await expect(page.getByLabel('Fence at least')).toHaveValue('54 in');
  await expect(page.getByText('U.S. Bureau of Land Management')).toBeVisible();
  await page.getByLabel('Catalogue').selectOption('prices');
  await page.getByRole('combobox', { name: 'Row', exact: true }).selectOption('2-3/8 sch40');
  const cost = await settled(total(page, 'cost'));
  await page.getByLabel('Catalogue').selectOption('hours');
  await page.getByRole('combobox', { name: 'Row', exact: true }).selectOption('set');
  const hours = await settled(total(page, 'hours'));
  await page.getByLabel('Minutes of one person').fill('60');
  await page.getByLabel('Minutes of one person').blur();
  await expect(total(page, 'hours')).not.toHaveText(hours);
  await expect(total(page, 'cost')).not.toHaveText(cost);
});

test('braces, rail heights and allowances reach the plan', async ({ page }) => {
  await openExample(page);
  await tab(page, 'Fence').click();
  await page.getByRole('complementary').getByRole('combobox', { name: 'Fence', exact: true }).selectOption('jennies');
  const hours = await settled(total(page, 'hours'));
  await unfold(page, 'Braces');
  await page.getByLabel('at corners').uncheck();
  await page.getByLabel('at ends').uncheck();
  await page.getByLabel('at gates').uncheck();
  await expect(total(page, 'hours')).not.toHaveText(hours); // no brace is built any more
  await page.getByLabel('A corner is braced from').fill('900');
  await page.getByLabel('A corner is braced from').blur();
  await expect(page.getByText('Type a number from 0 to 180.')).toBeVisible();
  await tab(page, 'Pipe').click();
  await unfold(page, 'What strays');
  const lost = page.getByLabel('Lost at each end cut square');
  await lost.fill('1 in');
  await lost.blur();
  await page.getByRole('button', { name: 'Back to 1/4 in' }).click();
  await expect(lost).toHaveValue('1/4 in');
  await unfold(page, 'Trailer');
  await page.getByLabel('Length of the bed').fill('16 ft');
  await page.getByLabel('Length of the bed').blur();
  await expect(page.getByRole('button', { name: 'Back to 20 ft' })).toBeVisible();
});

test('takes levels, spots and a grid; names the line that it cannot read', async ({ page }) => {
  await openExample(page);
  await tab(page, 'Ground').click();
  await page.getByRole('complementary').getByRole('combobox', { name: 'Leg', exact: true }).selectOption('AP');
  const ground = page.locator('.profile .ground');
  const before = await ground.getAttribute('d');
  const pairs = page.getByLabel('Distance, height');
  await pairs.fill('0, 100\nten, 101');
  await pairs.blur();
  await expect(page.getByText('Line 2 cannot be read.')).toBeVisible();
  await pairs.fill('0, 100\n40, 106\n120 ft, 100');
  await pairs.blur();
  await expect(ground).not.toHaveAttribute('d', before!);
  await expect(pairs).toHaveValue('0 ft, 100 ft\n40 ft, 106 ft\n120 ft, 100 ft');
  await expect(page.getByText(/570 of 570 heights known/)).toBeVisible();
  await page.getByRole('button', { name: 'Remove the grid' }).click();
  await page.getByLabel('Places lie apart').fill('100 ft');
  await page.getByRole('button', { name: 'Lay the grid' }).click();
  await expect(page.getByText(/ 0 of \d+ heights known/)).toBeVisible();
  const heights = page.getByLabel('north at the top');
  await heights.fill((await heights.inputValue()).replace('-', '101.5'));
  await heights.blur();
  await expect(page.getByText(/ 1 of \d+ heights known/)).toBeVisible();
});

// Rails that follow the ground over a hollow in the middle of a bay: filled by a tap, kept in the form, taken out again.
test('mends the ground by a tap and by its form', async ({ page }) => {
  const profile = [
    [0, 100],
    [40, 100],
    [44, 99.3],
    [48, 100],
    [96, 100],
  ].map(([station, height]) => ({ leg: 'AB', station: `${station} ft`, height: `${height} ft` }));
  const job = {
    version: 1,
    name: 'Hollow',
    site: {
      points: [
        { id: 'A', east: '0 ft', north: '0 ft' },
        { id: 'B', east: '96 ft', north: '0 ft' },
      ],
      legs: [{ id: 'AB', from: 'A', to: 'B', fence: 'paddock' }],
      ground: { profile },
    },
    choices: { fences: [{ id: 'paddock', animal: 'horse', height: '60 in', rails: 4, rail_pipe: '2-3/8 sch40', line_pipe: '2-3/8 sch40' }] },
  };
  await page.goto('./');
  await page.locator('input[type=file]').setInputFiles({ name: 'hollow.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(job)) });
  await tab(page, 'Results').click();
  const finding = page.locator('[data-code="grade.dip"]');
  await finding.getByRole('button', { name: 'What can be done' }).click();
  await finding.getByRole('button', { name: /^Fill / }).click();
  await expect(finding).toHaveCount(0);
  await tab(page, 'Ground').click();
  await expect(page.getByText('Cut, fill and filler rails (1)')).toBeVisible();
  await expect(page.getByRole('combobox', { name: 'What is done' })).toHaveValue('fill');
  await page.getByLabel('Width of ground cut or filled').fill('3 ft');
  await page.getByLabel('Width of ground cut or filled').blur();
  await expect(page.getByRole('button', { name: 'Back to 2 ft' })).toBeVisible();
  await page.getByRole('button', { name: /^Take out: Fill the ground/ }).click();
  await tab(page, 'Results').click();
  await expect(finding).toHaveCount(1);
  await tab(page, 'Ground').click();
  await unfold(page, 'Cut, fill and filler rails');
  await page.getByRole('button', { name: 'Mend a place on AB' }).click();
  await tab(page, 'Results').click();
  await expect(finding).toHaveCount(0); // a filler rail in the bay in hand
  await tab(page, 'Ground').click();
  await page.getByRole('textbox', { name: 'Along AB' }).fill('4 ft');
  await page.getByRole('textbox', { name: 'Along AB' }).blur();
  await tab(page, 'Results').click();
  await expect(page.locator('[data-code="grade.mend_idle"]')).toHaveCount(1); // the ground is even there
});
