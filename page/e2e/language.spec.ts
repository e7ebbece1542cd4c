// SPDX-License-Identifier: MIT
import { expect, test } from '@playwright/test';
import { openExample, tab, total } from './desk';

test('speaks Spanish on the page, in the findings and on the sheets', async ({ page }) => {
  await page.goto('./');
  await page.getByRole('button', { name: 'Español' }).click();
  await expect(page.locator('html')).toHaveAttribute('lang', 'es');
  await page.locator('section button').first().click();
  await expect(total(page, 'posts')).toBeVisible();
  await tab(page, 'Compras').click();
  const bought = page.getByRole('complementary').locator('summary');
  await expect(bought.first()).toContainText(/\d+ tubo/);
  await expect(bought.filter({ hasText: /\b(stick|each|end|through|corner|bolt|cap|roll)\b/ })).toHaveCount(0);
  await tab(page, 'Resultados').click();
  await expect(page.getByText('Alambre de refuerzo, jalón')).toBeVisible();
  await tab(page, 'Hojas').click();
  const first = page.locator('.pages img').first();
  await expect(first).toBeVisible();
  const drawn = decodeURIComponent((await first.getAttribute('src')) ?? '');
  expect(drawn).toContain('Lo que se va a construir');
  await expect(page.getByText(/\[[a-z_.]+\]/)).toHaveCount(0);
});

test('changes the language of a job and takes it back', async ({ page }) => {
  await openExample(page);
  await page.getByLabel('Language').selectOption('es');
  await expect(tab(page, 'Tubería')).toBeVisible();
  await page.keyboard.press('Control+z');
  await expect(tab(page, 'Pipe')).toBeVisible();
});
