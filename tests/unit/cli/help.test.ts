import { describe, expect, it } from 'vitest';
import { readSeries, requestOfSeries } from '../../../core/contract/series';
import { helpText, helpTopics, seriesExample } from '../../../core/node/cli/help';
import { columnsOf } from '../../../core/node/cli/wrap';

describe('help', () => {
  it('[CL16] shows a series file that can be copied as it is', () => {
    expect(helpText('series')).toContain(`\n${seriesExample}`);
    const { jobs } = requestOfSeries(readSeries(seriesExample, 'example'), (file) => `/unit/${file}`);
    expect(jobs.map((job) => [job.name, job.windows.length])).toEqual([
      ['reference', 2],
      ['LEDs 8 mm behind', 1],
      ['LEDs 14 mm behind, turned inwards', 1],
    ]);
  });

  it('[CL16] keeps every page to 100 columns, and knows no topic that it does not list', () => {
    for (const topic of [undefined, ...helpTopics]) {
      const lines = (helpText(topic) ?? '').split('\n');
      expect(lines.filter((line) => columnsOf(line) > 100)).toEqual([]);
    }
    expect(helpText('nothing')).toBeNull();
  });
});
