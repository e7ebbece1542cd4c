// SPDX-License-Identifier: MIT
import { defineConfig, devices } from '@playwright/test';

const chromium = {
  executablePath: '/usr/bin/chromium',
  args: [
    '--no-sandbox',
    '--disable-gpu',
    '--disable-quic',
    '--no-first-run',
    '--disable-background-networking',
    '--disable-component-update',
    '--disable-sync',
  ],
};

// Two people may test side by side: PAGE_PORT and PAGE_OUT give each a port and a built page of his own.
const port = process.env.PAGE_PORT ?? '4173';
const address = `http://127.0.0.1:${port}/`;

export default defineConfig({
  testDir: 'e2e',
  outputDir: process.env.PAGE_OUT ? `test-results/${process.env.PAGE_OUT}` : 'test-results',
  timeout: 60_000,
  expect: { timeout: 20_000 },
  workers: 1,
  reporter: [['list']],
  use: { baseURL: address, headless: true, launchOptions: chromium },
  projects: [
    { name: 'desktop', use: { viewport: { width: 1440, height: 900 } }, testIgnore: /phone/ },
    { name: 'phone', use: { ...devices['Pixel 7'], viewport: { width: 360, height: 800 }, launchOptions: chromium }, testMatch: /phone|views/ },
  ],
  webServer: { command: `npx vite preview --host 127.0.0.1 --port ${port} --strictPort`, url: address, reuseExistingServer: false },
});
