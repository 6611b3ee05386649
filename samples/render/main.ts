import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { renderPhoto } from './index';
import { samples } from './sample-list';
import { seriesFiles } from './series-files';
import { statedTruth, truthText } from './truth-file';

/** Writes all photos with their truth, and the series files, into `folder`; names given limit the photos. */
async function renderAll(folder: string, only: readonly string[]): Promise<void> {
  await mkdir(join(folder, 'photos'), { recursive: true });
  for (const one of samples) {
    if (only.length > 0 && !only.some((word) => one.file.includes(word))) continue;
    const { bytes, truth } = await renderPhoto(one.scene, one.camera);
    await writeFile(join(folder, 'photos', one.file), bytes);
    await writeFile(join(folder, 'photos', `${one.file}.truth.json`), truthText(statedTruth(one)));
    const scores = truth.windows.map((window) => `${window.name} ${window.figures.score.toFixed(1)}`).join(', ');
    console.log(`${one.file.padEnd(36)} ${String(Math.round(bytes.length / 1024)).padStart(5)} KiB  ${scores}`);
  }
  for (const [name, content] of Object.entries(seriesFiles())) {
    await writeFile(join(folder, name), truthText(content));
  }
}

renderAll('samples', process.argv.slice(2)).catch((error: unknown) => {
  console.error(error);
  process.exitCode = 1;
});
