import { describe, expect, it } from 'vitest';
import { AppError } from '../../../core/base/errors';
import { placeOf, readSeries, requestOfSeries } from '../../../core/contract/series';

const square = (offset: number): number[][] => [
  [offset, 1],
  [offset + 90, 2],
  [offset + 91, 21],
  [offset - 1, 22],
];

/** A fresh document a test, as JSON would give it. */
function goodSeries(): Record<string, unknown> & {
  trials: Record<string, unknown>[];
  windows: Record<string, unknown>[];
} {
  return {
    format: 'evendial-series',
    version: 1,
    room: 'dark',
    windows: [
      {
        name: 'left',
        widthMm: 92,
        heightMm: 18,
        leaveOut: [
          {
            pointsMm: [
              [1, 1],
              [5, 1],
              [5, 4],
            ],
          },
        ],
      },
      { name: 'right', widthMm: 38, heightMm: 37, outline: { kind: 'ellipse' }, print: 'dark' },
    ],
    trials: [
      {
        name: 'LEDs 8 mm behind',
        photos: [{ file: 'a2.tif', exposureS: 0.1, fNumber: 4, iso: 100, encoding: 'linear' }],
        light: 'warm-white',
        lampOff: null,
        corners: { right: square(200), left: square(10) },
        lamps: [{ name: 'left', positionMm: [23, 9, 8], tiltDeg: [0, 1], currentMa: 10, on: true }],
      },
      { name: 'tape', photos: ['a3.jpg'], corners: { left: square(30) } },
    ],
  };
}

function refusal(document: unknown): AppError {
  try {
    readSeries(typeof document === 'string' ? document : JSON.stringify(document), 's.json');
  } catch (error) {
    if (error instanceof AppError) return error;
    throw error;
  }
  throw new Error('was accepted');
}

describe('readSeries', () => {
  it('[SE4] becomes jobs in order, each with the windows that its photo shows, in the order of the windows', () => {
    const file = readSeries(`\uFEFF${JSON.stringify(goodSeries())}`, 's.json');
    const request = requestOfSeries(file, (name) => `/photos/${name}`);
    expect(request).toMatchObject({ room: 'dark', viewingDistanceMm: 500 });
    expect(request.jobs.map((job) => [job.role, job.name, job.light, job.windows.map((one) => one.spec.name)])).toEqual(
      [
        ['trial', 'LEDs 8 mm behind', 'warm-white', ['left', 'right']],
        ['trial', 'tape', 'unknown', ['left']],
      ],
    );
    expect(request.jobs[0].photo).toEqual({
      file: 'a2.tif',
      path: '/photos/a2.tif',
      encoding: 'linear',
      encodingStated: true,
      exposure: { exposureS: 0.1, fNumber: 4, iso: 100 },
    });
    expect(request.jobs[0].windows[1]).toMatchObject({
      spec: { shape: { kind: 'ellipse' }, print: 'dark' },
      sizeMm: { widthMm: 38, heightMm: 37 },
      corners: [{ column: 200, row: 1 }, { column: 290 }, { column: 291, row: 21 }, { column: 199, row: 22 }],
    });
    expect(request.jobs[0].windows[0].spec.leaveOut).toEqual([
      [
        { xMm: 1, yMm: 1 },
        { xMm: 5, yMm: 1 },
        { xMm: 5, yMm: 4 },
      ],
    ]);
  });

  it('[SE4] takes one window of a trial photo as the reference, with the corners stated there', () => {
    const series = { ...goodSeries(), reference: { window: 'right', photos: ['a2.tif'] } };
    const [job] = requestOfSeries(readSeries(JSON.stringify(series), 's.json'), (name) => name).jobs;
    expect([job.role, job.name, job.light, job.windows.map((one) => one.spec.name)]).toEqual([
      'reference',
      'reference',
      'filament',
      ['right'],
    ]);
    expect(job.windows[0].corners?.[0]).toEqual({ column: 200, row: 1 });
  });

  type Edit = (series: ReturnType<typeof goodSeries>) => unknown;
  const refused: [string, string, Edit][] = [
    [
      'an unknown key in a lamp',
      'trials[0].lamps[0].colour: unknown key',
      (s) => {
        (s.trials[0]['lamps'] as Record<string, unknown>[])[0]['colour'] = 'red';
      },
    ],
    [
      'a point of three numbers',
      'trials[1].corners.left[0]: must hold 2 numbers',
      (s) => (s.trials[1]['corners'] = { left: [[1, 2, 3], ...square(5).slice(1)] }),
    ],
    ['a photo that is a number', 'trials[1].photos[0]: must be an object', (s) => (s.trials[1]['photos'] = [5])],
    ['an unknown key on top', 'note: unknown key', (s) => (s['note'] = 'x')],
    [
      'an unknown key of a photo',
      'trials[0].photos[0].iSO: unknown key',
      (s) => (s.trials[0]['photos'] = [{ file: 'a', iSO: 1 }]),
    ],
    ['a photo without a file', 'trials[0].photos[0].file: is missing', (s) => (s.trials[0]['photos'] = [{ iso: 100 }])],
    ['a missing width', 'windows[0].widthMm: is missing', (s) => delete s.windows[0]['widthMm']],
    ['a width in words', 'windows[0].widthMm: must be a number', (s) => (s.windows[0]['widthMm'] = '92')],
    ['a width of 1 mm', 'windows[0].widthMm: must be 2 to 1000', (s) => (s.windows[0]['widthMm'] = 1)],
    ['a height of 1001 mm', 'windows[1].heightMm: must be 2 to 1000', (s) => (s.windows[1]['heightMm'] = 1001)],
    [
      'three corners',
      'trials[1].corners.left: must hold 4 points',
      (s) => (s.trials[1]['corners'] = { left: square(5).slice(1) }),
    ],
    [
      'a polygon of two points',
      'windows[0].leaveOut[0].pointsMm: must hold 3 points',
      (s) =>
        (s.windows[0]['leaveOut'] = [
          {
            pointsMm: [
              [1, 2],
              [3, 4],
            ],
          },
        ]),
    ],
    [
      'a polygon on one line',
      'windows[0].leaveOut[0].pointsMm: must enclose',
      (s) =>
        (s.windows[0]['leaveOut'] = [
          {
            pointsMm: [
              [1, 1],
              [2, 2],
              [5, 5],
            ],
          },
        ]),
    ],
    [
      'a polygon that crosses itself',
      'windows[0].outline.pointsMm: must not cross itself: its sides from point 1 and from point 3 do',
      (s) =>
        (s.windows[0]['outline'] = {
          kind: 'polygon',
          pointsMm: [
            [1, 1],
            [30, 12],
            [31, 2],
            [2, 11],
          ],
        }),
    ],
    [
      'a cut of a rectangle',
      'windows[0].outline.cutMm: unknown key',
      (s) =>
        (s.windows[0]['outline'] = {
          kind: 'rectangle',
          cutMm: [
            [0, 0],
            [9, 0],
            [9, 8],
          ],
        }),
    ],
    [
      'a polygon without points',
      'windows[0].outline.pointsMm: is missing',
      (s) => (s.windows[0]['outline'] = { kind: 'polygon' }),
    ],
    [
      'an unknown outline',
      'windows[0].outline.kind: must be one of',
      (s) => (s.windows[0]['outline'] = { kind: 'star' }),
    ],
    ['a window name used twice', 'windows[1].name: the name "left" is taken', (s) => (s.windows[1]['name'] = 'left')],
    [
      'a trial name used twice',
      'trials[1].name: the name "LEDs 8 mm behind" is taken',
      (s) => (s.trials[1]['name'] = 'LEDs 8 mm behind'),
    ],
    [
      'corners of an unknown window',
      'trials[1].corners.middle: there is no window',
      (s) => (s.trials[1]['corners'] = { middle: square(3) }),
    ],
    [
      'a reference of an unknown window',
      'reference.window: there is no window',
      (s) => (s['reference'] = { window: 'top', photos: ['a2.tif'] }),
    ],
    ['an unknown kind of light', 'trials[1].light: must be one of', (s) => (s.trials[1]['light'] = 'sun')],
    ['nothing to measure', 'trials: there is nothing to measure', (s) => (s.trials = [])],
    ['another format', 'format: must be "evendial-series"', (s) => (s['format'] = 'evendial-readings')],
  ];
  it.each(refused)('[SE1, SE2] refuses %s at its place', (_, place, edit) => {
    const series = goodSeries();
    edit(series);
    expect(refusal(series)).toMatchObject({ kind: 'usage', message: expect.stringContaining(`\n  ${place}`) });
  });

  it('[SE1] names every place at once', () => {
    const series = goodSeries();
    series.windows[0]['widthMm'] = -4;
    series.trials[1]['light'] = 'sun';
    expect(refusal(series).message.split('\n')).toHaveLength(3);
  });

  it('[SE1] refuses what is no JSON, an infinite number, and a newer version by name', () => {
    expect(refusal('{ "format": ').code).toBe('SERIES_NOT_JSON');
    expect(refusal(JSON.stringify(goodSeries()).replace('"widthMm":92', '"widthMm":1e999')).message).toContain(
      'widthMm',
    );
    expect(refusal({ ...goodSeries(), version: 2 }).code).toBe('SERIES_TOO_NEW');
    for (const wrong of ['[]', '3', 'null', '"text"']) expect(refusal(wrong).code).toBe('SERIES_INVALID');
  });

  it('[SE4] windows whose corners are left out are all looked for; a print photo goes along', () => {
    const series = goodSeries();
    delete series.trials[1]['corners'];
    series.trials[1]['printPhoto'] = { file: 'room.jpg', encoding: 'srgb' };
    const request = requestOfSeries(readSeries(JSON.stringify(series), 's.json'), (name) => `/photos/${name}`);
    const job = request.jobs.find(({ name }) => name === series.trials[1]['name'])!;
    expect(request.isSeries).toBe(true);
    expect(job.windows.map(({ spec, corners }) => [spec.name, corners])).toEqual(
      (series['windows'] as { name: string }[]).map(({ name }) => [name, null]),
    );
    expect(job.printPhoto).toMatchObject({ file: 'room.jpg', path: '/photos/room.jpg', encodingStated: true });
  });

  it('[SE4, CP6] lampOff, flatField and witness go with their photo; an encoding that is not stated is the photo’s', () => {
    const series = goodSeries();
    const witness = [[0, 0], [9, 0], [9, 8]]; // prettier-ignore
    Object.assign(series.trials[0], {
      photos: [{ file: 'lit.tif', encoding: 'linear' }],
      lampOff: 'off.tif',
      flatField: { file: 'sheet.jpg', encoding: 'srgb' },
      witness: { photoPolygonPx: witness },
    });
    const { jobs } = requestOfSeries(readSeries(JSON.stringify(series), 's'), (file) => `/in/${file}`);
    const job = jobs.find(({ photo }) => photo.file === 'lit.tif');
    expect(job?.lampOff).toEqual({
      file: 'off.tif',
      path: '/in/off.tif',
      encoding: 'linear',
      encodingStated: true,
      exposure: {},
    });
    expect(job?.flatField).toMatchObject({ path: '/in/sheet.jpg', encoding: 'srgb', encodingStated: true });
    expect(job?.witnessPx).toEqual(witness.map(([column, row]) => ({ column, row })));
  });

  it('[SE3] several photos of a trial or the reference are one exposure series', () => {
    const series = goodSeries();
    series.trials[1]['photos'] = ['a.jpg', { file: 'b.jpg', exposureS: 0.5 }];
    const { jobs } = requestOfSeries(readSeries(JSON.stringify(series), 's'), (file) => `/in/${file}`);
    const job = jobs.find(({ photo }) => photo.file === 'a.jpg');
    expect(job?.bracket?.map(({ path, exposure }) => [path, exposure])).toEqual([
      ['/in/a.jpg', {}],
      ['/in/b.jpg', { exposureS: 0.5 }],
    ]);
    expect(jobs.filter(({ bracket }) => bracket)).toHaveLength(1);
  });
});

describe('placeOf', () => {
  it('[SE1] writes a path as a person would', () => {
    expect([placeOf(['trials', 0, 'lamps', 1, 'colour']), placeOf(['corners', 'left meter']), placeOf([])]).toEqual([
      'trials[0].lamps[1].colour',
      'corners["left meter"]',
      '',
    ]);
  });
});
