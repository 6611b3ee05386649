import { carryWindow, findOutlines, measurePhotos, type EnginePorts, type MeasureRun } from '../../engine';
import type { EngineTasks, Task, TaskName } from './messages';
import { readingFiles } from './reading-files';
import { shadePage } from './shade-page';
import { linearPart, screenPixels } from './screen-parts';
import { windowThumbnail } from './thumbnail';
import { measuredForSheet, sharedArchive, sheetFile } from './unit-files';

/** Does one task, whatever it is. */
export async function carryOut(
  task: Task,
  ports: EnginePorts,
  run: MeasureRun,
): Promise<EngineTasks[TaskName]['answers']> {
  switch (task.name) {
    case 'measure':
      return measurePhotos(task.asks, ports, run);
    case 'find':
      return findOutlines(task.asks, ports, run);
    case 'carry':
      return carryWindow(task.asks, ports, run);
    case 'pixels':
      return screenPixels(task.asks, ports);
    case 'linear':
      return linearPart(task.asks, ports);
    case 'files':
      return readingFiles(task.asks, ports, run);
    case 'thumbnail':
      return windowThumbnail(task.asks, ports, run);
    case 'unit':
      return measuredForSheet(task.asks, ports, run);
    case 'sheet':
      return sheetFile(task.asks);
    case 'share':
      return sharedArchive(task.asks, ports, run);
    case 'shade':
      return shadePage(task.asks, ports, run);
  }
}
