import { execFileSync } from 'node:child_process';

/** The command line and the decoding child are tested as they are shipped: bundled. */
export function setup(): void {
  if (process.env['EVENDIAL_BUILT'] === '1') return;
  execFileSync(process.execPath, ['build.mjs'], { stdio: 'inherit' });
  // Each project of the tests asks for it.
  process.env['EVENDIAL_BUILT'] = '1';
}
