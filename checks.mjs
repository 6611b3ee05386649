// The checks that run nothing: types of every layer, lint, format. Two at a time, as nothing of one is needed by another.
import { spawn } from 'node:child_process';
import { availableParallelism } from 'node:os';

// Longest first, so that all cores end together. What a file alone decides is remembered by its content.
const commands = [
  'npx --no-install eslint --cache --cache-strategy content --cache-location node_modules/.cache/eslint/ .',
  // Each layer once: those that build on it read its declarations. By its place, since both TypeScripts call themselves tsc.
  'node node_modules/typescript-7/bin/tsc -b --pretty',
  'npx --no-install prettier --check --cache --cache-strategy content --log-level warn .',
];

/** Runs a program of the packages; what it says comes in one piece. @returns whether it found nothing */
function passes(command) {
  return new Promise((resolve, reject) => {
    let said = '';
    const [program, ...words] = command.split(' ');
    const child = spawn(program, words, { shell: process.platform === 'win32' });
    for (const stream of [child.stdout, child.stderr]) stream.on('data', (part) => (said += part));
    child.once('error', reject);
    child.once('close', (code) => {
      if (code !== 0) console.error(`${command} ended with ${code}:\n${said}`);
      resolve(code === 0);
    });
  });
}

const waiting = [...commands];
let allPass = true;
async function work() {
  for (let command = waiting.shift(); command !== undefined; command = waiting.shift()) {
    if (!(await passes(command))) allPass = false;
  }
}
await Promise.all(Array.from({ length: Math.max(1, availableParallelism()) }, work));
process.exitCode = allPass ? 0 : 1;
