import { describe, expect, it } from 'vitest';
import { readMeasureOptions } from '../../../core/node/cli/measure-options';

const inRoom = (file: string): string => `/bench/${file}`;
const corners = ['--corners', '1,2 31,3 32,14 4,15'];

describe('readMeasureOptions', () => {
  it('[CL3] makes one job a photo, in order, named after the file without extension', () => {
    const words = [
      'b.2.jpg',
      'sub/a.tif',
      ...corners,
      '--size',
      '92x18',
      '--light',
      'red+green',
      '--encoding',
      'linear',
    ];
    const { source, output, strict, mapsFolder } = readMeasureOptions([...words, '--json', '--maps', 'm'], inRoom);
    expect({ output, strict, mapsFolder }).toEqual({ output: 'json', strict: false, mapsFolder: 'm' });
    if (source.kind !== 'photos') throw new Error('photos were named');
    expect(source.request.jobs.map((job) => [job.name, job.photo.file, job.photo.path])).toEqual([
      ['b.2', 'b.2.jpg', '/bench/b.2.jpg'],
      ['a', 'sub/a.tif', '/bench/sub/a.tif'],
    ]);
    const [job] = source.request.jobs;
    expect(job.light).toBe('red+green');
    expect(job.photo).toMatchObject({ encoding: 'linear', encodingStated: true, exposure: {} });
    expect(job.windows[0].sizeMm).toEqual({ widthMm: 92, heightMm: 18 });
    expect(job.windows[0].corners?.[2]).toEqual({ column: 32, row: 14 });
    expect(source.request).toMatchObject({ room: 'unknown', viewingDistanceMm: 500 });
  });

  it('[CL3] leaves the size to the engine when it is not given, and assumes nothing about light and print', () => {
    const { source } = readMeasureOptions(['a.jpg', ...corners, '--encoding', 'profile'], inRoom);
    if (source.kind !== 'photos') throw new Error('photos were named');
    const [job] = source.request.jobs;
    expect([job.windows[0].sizeMm, job.windows[0].spec.print, job.light, job.photo.encodingStated]).toEqual([
      null,
      'auto',
      'unknown',
      false,
    ]);
  });

  it('[SE6] --print-photo names a photo for the print alone', () => {
    const { source } = readMeasureOptions(['a.jpg', '--print-photo', 'room.jpg'], inRoom);
    if (source.kind !== 'photos') throw new Error('photos were named');
    expect(source.request.jobs[0].printPhoto).toMatchObject({ file: 'room.jpg', path: '/bench/room.jpg' });
    expect(() => readMeasureOptions(['--series', 's.json', '--print-photo', 'r.jpg'], inRoom)).toThrow('--print-photo');
    expect(() => readMeasureOptions(['a.jpg', '--print-photo', ''], inRoom)).toThrow('names no photo');
  });

  it('[SE6] --print-photo-corners are those of the window in the print photo, and of no other', () => {
    const corners = ['--print-photo-corners', '9,9 39,9 39,19 9,19'];
    const { source } = readMeasureOptions(['a.jpg', '--print-photo', 'room.jpg', ...corners], inRoom);
    if (source.kind !== 'photos') throw new Error('photos were named');
    const [job] = source.request.jobs;
    expect(job.printPhotoCorners?.[2]).toEqual({ column: 39, row: 19 });
    expect(job.windows[0].corners).toBeNull();
    expect(() => readMeasureOptions(['a.jpg', ...corners], inRoom)).toThrow('without --print-photo');
    const three = ['--print-photo-corners', '9,9 39,9 39,19'];
    expect(() => readMeasureOptions(['a.jpg', '--print-photo', 'room.jpg', ...three], inRoom)).toThrow(
      '3 points, not 4',
    );
  });

  it('[CL18] --rim gives corners and implies an ellipse', () => {
    const { source } = readMeasureOptions(['a.jpg', '--rim', '50,20 80,50 50,80 20,50 71.2,28.8'], inRoom);
    if (source.kind !== 'photos') throw new Error('photos were named');
    const [window] = source.request.jobs[0].windows;
    expect([window.spec.shape.kind, window.isShapeStated]).toEqual(['ellipse', true]);
    expect(window.corners?.[0].column).toBeWithin(20, 0.1); // 71.2 is 71.213, rounded
    expect(window.corners?.[2].row).toBeWithin(80, 0.1);
  });

  it.each([
    [['a.jpg', ...corners, '--rim', '50,20 80,50 50,80 20,50 71,29'], 'USAGE'],
    [['a.jpg', '--rim', '50,20 80,50 50,80 20,50 71,29', '--outline', 'rectangle'], 'USAGE'],
    [['--series', 's.json', '--rim', '50,20 80,50 50,80 20,50 71,29'], 'USAGE'],
    [['a.jpg', '--rim', '50,20 80,50 50,80 20,50'], 'RIM_TOO_FEW'],
    [['a.jpg', '--rim', '50,20 80,50 50,80 20,fifty 71,29'], 'RIM_INVALID'],
  ])('[CL18] refuses %j', (words, code) => {
    expect(() => readMeasureOptions(words, inRoom)).toThrow(expect.objectContaining({ code }));
  });

  it.each([
    [['a.jpg', ...corners, '--lamp-off='], 'USAGE'],
    [['--series', 's.json', '--lamp-off', 'off.jpg'], 'USAGE'],
    [['a.jpg', '--reference-corners', '1,2 31,3 32,14 4,15'], 'USAGE'],
    [['a.jpg', 'b.jpg', ...corners, '--bracket', '--exposure', '1/30 f/4'], 'USAGE'],
    [['--series', 's.json', '--bracket'], 'USAGE'],
    [['a.jpg', '--save-response', 'q2.json'], 'USAGE'],
    [['a.jpg', 'b.jpg', '--bracket', '--response', 'q2.json'], 'USAGE'],
    [['a.jpg', '--response='], 'USAGE'],
    [['a.jpg', ...corners, '--json', '--csv'], 'USAGE'],
    [['--series', 's.json', 'a.jpg'], 'USAGE'],
    [['--series', 's.json', '--size', '92x18'], 'USAGE'],
    [[...corners], 'USAGE'],
    [['', ...corners], 'USAGE'],
    [['a.jpg', ...corners, '--maps='], 'USAGE'],
    [['a.jpg', ...corners, '--print', 'red'], 'OPTION_VALUE'],
  ])('[CL3] refuses %j', (words, code) => {
    expect(() => readMeasureOptions(words, inRoom)).toThrow(expect.objectContaining({ kind: 'usage', code }));
  });

  it('[CL3, BR6] --bracket: one reading of all photos, named after the first; f-number and ISO may be stated', () => {
    const words = ['a.jpg', 'b.jpg', 'c.jpg', ...corners, '--bracket', '--exposure', 'f/4 iso100'];
    const { source } = readMeasureOptions(words, inRoom);
    const jobs = source.kind === 'photos' ? source.request.jobs : [];
    expect(jobs).toHaveLength(1);
    expect(jobs[0]).toMatchObject({ name: 'a', photo: { file: 'a.jpg' } });
    expect(jobs[0].bracket).toEqual(
      ['a.jpg', 'b.jpg', 'c.jpg'].map((file) => ({
        ...jobs[0].photo,
        file,
        path: inRoom(file),
        exposure: { fNumber: 4, iso: 100 },
      })),
    );
  });

  it('[CL3, CP6] --lamp-off and --flat-field go with every photo, coded alike', () => {
    const words = ['a.tif', ...corners, '--encoding', 'linear', '--lamp-off', 'off.tif', '--flat-field', 'sheet.tif'];
    const { source } = readMeasureOptions(words, inRoom);
    const [job] = source.kind === 'photos' ? source.request.jobs : [];
    const coded = { encoding: 'linear', encodingStated: true, exposure: {} };
    expect(job.lampOff).toEqual({ file: 'off.tif', path: inRoom('off.tif'), ...coded });
    expect(job.flatField).toEqual({ file: 'sheet.tif', path: inRoom('sheet.tif'), ...coded });
  });

  it('[CL3] corners left out: the window is searched for, and the search may decide its shape', () => {
    const { source } = readMeasureOptions(['a.jpg'], inRoom);
    const found = source.kind === 'photos' ? source.request.jobs[0].windows[0] : null;
    expect(found).toMatchObject({ corners: null, isShapeStated: false });
  });

  it('[CL2] --reference goes first, is filament light, and has corners of its own', () => {
    const words = ['a.jpg', '--corners', '1,2 31,3 32,14 4,15', '--light', 'red', '--reference', 'r.jpg'];
    const { source } = readMeasureOptions([...words, '--reference-corners', '9,9 39,9 39,19 9,19'], inRoom);
    if (source.kind !== 'photos') throw new Error('a series');
    const { jobs, isSeries } = source.request;
    expect(isSeries).toBe(true);
    expect(jobs.map(({ role, light }) => [role, light])).toEqual([
      ['reference', 'filament'],
      ['trial', 'red'],
    ]);
    expect(jobs[0].windows[0].corners?.[0]).toEqual({ column: 9, row: 9 });
    expect(jobs[1].windows[0].corners?.[0]).toEqual({ column: 1, row: 2 });
  });
});
