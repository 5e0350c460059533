// Finds a Chromium for the browser tests, installing Debian's where that is possible (root on a Debian machine).
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';

const PLACES = [
  process.env.VATSIDE_CHROMIUM,
  // The same engine without a window of its own: a page costs it a quarter of the processor.
  '/usr/bin/chromium-headless-shell',
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
];

const SHELL = '/usr/bin/chromium-headless-shell';

export function findChromium() {
  return PLACES.find((place) => place !== undefined && place !== '' && existsSync(place));
}

/** The path of a Chromium, the lighter one where it can be had; ends the process with one clear line when none can be. */
export function ensureChromium() {
  const isNamed = (process.env.VATSIDE_CHROMIUM ?? '') !== '';
  const found = findChromium();
  if (found !== undefined && (isNamed || found === SHELL)) return found;
  if (process.getuid?.() === 0 && existsSync('/usr/bin/apt-get')) {
    console.log('Installing Chromium from Debian ...');
    const quiet = {
      stdio: ['ignore', 'ignore', 'inherit'],
      env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
    };
    spawnSync('apt-get', ['update', '-qq'], quiet);
    // An older Debian has the one with a window only.
    for (const name of ['chromium-headless-shell', 'chromium']) {
      spawnSync('apt-get', ['install', '-y', '-qq', '--no-install-recommends', name], quiet);
      const installed = findChromium();
      if (installed !== undefined) return installed;
    }
  }
  console.error(
    'The browser tests need Chromium: install the package "chromium" (Debian: apt-get install chromium) or set VATSIDE_CHROMIUM to a Chromium or Chrome binary, then run npm test again.',
  );
  process.exit(1);
}
