// Takes the README's pictures of the screens, from the sample units, in a book of its own. Run by `npm run pictures`.
import { execFileSync, spawn } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import process from 'node:process';
import { chromium } from 'playwright-core';
import sharp from 'sharp';

const program = path.resolve('dist', 'evendial.cjs');
const book = await mkdtemp(path.join(tmpdir(), 'evendial-pictures-'));
for (const unit of ['m4', 't60']) {
  execFileSync(process.execPath, [program, 'unit', 'import', `samples/larkfield-${unit}.evendial`, '--book', book]);
}
const host = spawn(process.execPath, [program, 'serve', '--port', '0', '--book', book], {
  stdio: ['ignore', 'pipe', 'inherit'],
});
const address = await new Promise((resolve) => {
  let printed = '';
  host.stdout.on('data', (part) => {
    printed += part;
    const found = /http:\/\/127\.0\.0\.1:\d+\/#\S+/.exec(printed);
    if (found) resolve(found[0]);
  });
});
const browser = await chromium.launch({ executablePath: '/usr/bin/chromium', args: ['--no-sandbox', '--disable-gpu'] });
try {
  const page = await browser.newPage({ viewport: { width: 1360, height: 860 } });
  page.setDefaultTimeout(120_000);

  /** A palette keeps the file small; the screens have few colours but for the photos. */
  const take = async (name) => {
    // Pictures that are still being drawn.
    await page.waitForTimeout(1500);
    const png = await page.screenshot();
    await sharp(png)
      .png({ palette: true, quality: 92, compressionLevel: 9 })
      .toFile(path.join('samples', 'pictures', `${name}.png`));
  };
  const until = async (isSo) => {
    while (!(await isSo())) await page.waitForTimeout(200);
  };
  const drawn = (count) => until(async () => (await page.locator('main canvas').count()) >= count);
  const atRest = () => until(async () => !/photos measured/.test(await page.locator('.foot .said').innerText()));

  await page.goto(address);
  await page.getByText('Larkfield T-60').first().waitFor();
  await drawn(4);
  await take('units');
  await page.getByText('Larkfield T-60').first().click();
  await drawn(7);
  await take('unit');
  await page.getByRole('button', { name: 'Lay on the bench' }).click();
  await page.locator('.strip-card').nth(6).waitFor();
  await page.waitForTimeout(3000);
  await atRest();
  await page.locator('.strip-card', { hasText: 'warm-white-bare' }).click();
  await page.locator('[data-station="reading"]').click();
  await page.locator('.strip').first().waitFor();
  await take('bench');
  await page.locator('[data-station="compare"]').click();
  await page.locator('[data-against]').selectOption({ label: 't60-warm-white-moved.jpg' });
  await page.locator('.slide canvas').first().waitFor();
  await take('compare');
  await page.locator('[data-station="next"]').click();
  await page.waitForTimeout(5000);
  await take('next');
} finally {
  await browser.close();
  host.kill();
  await rm(book, { recursive: true, force: true });
}
