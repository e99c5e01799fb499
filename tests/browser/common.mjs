// SPDX-License-Identifier: MIT
// What the programs here share: checks that are counted, and a browser without a network of its own.
import { chromium } from 'playwright-core';

export let failures = 0, checks = 0;

export function check(good, what) {
  checks++;
  if (!good) {
    failures++;
    console.log('FAIL ' + what);
  }
}

export const launch = () => chromium.launch({
  executablePath: process.env.CHROMIUM || '/usr/bin/chromium',
  args: ['--headless', '--no-sandbox', '--disable-gpu', '--no-first-run', '--disable-background-networking',
    '--disable-component-update', '--disable-sync', '--disable-quic'],
});
