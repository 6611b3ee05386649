import type { UnitRecord } from '../contract/unit-record';

function renameWindow(record: UnitRecord, from: string, to: string): UnitRecord {
  const moved = (name: string): string => (name === from ? to : name);
  return {
    ...record,
    trials: record.trials.map((trial) => ({
      ...trial,
      ...(trial.windows === undefined ? {} : { windows: trial.windows.map(moved) }),
      ...(trial.mirroredTo === undefined ? {} : { mirroredTo: moved(trial.mirroredTo) }),
      ...(trial.planned?.window === undefined
        ? {}
        : { planned: { ...trial.planned, window: moved(trial.planned.window) } }),
    })),
    photos: record.photos.map((photo) => {
      if (photo.corners === undefined) return photo;
      const corners = Object.fromEntries(Object.entries(photo.corners).map(([name, four]) => [moved(name), four]));
      return { ...photo, corners };
    }),
    readings: record.readings.map((reading) => ({ ...reading, window: moved(reading.window) })),
  };
}

function renameTrial(record: UnitRecord, from: string, to: string): UnitRecord {
  const moved = (name: string): string => (name === from ? to : name);
  return {
    ...record,
    trials: record.trials.map((trial) => ({
      ...trial,
      ...(trial.like === undefined ? {} : { like: moved(trial.like) }),
      ...(trial.planned?.from === undefined ? {} : { planned: { ...trial.planned, from: moved(trial.planned.from) } }),
    })),
    photos: record.photos.map((photo) => ({
      ...photo,
      ...(photo.trial === undefined ? {} : { trial: moved(photo.trial) }),
    })),
    readings: record.readings.map((one) => ({ ...one, trial: one.trial === null ? null : moved(one.trial) })),
    ...(record.chosen === undefined ? {} : { chosen: { ...record.chosen, trial: moved(record.chosen.trial) } }),
  };
}

/** Carries the new name of a window or a trial to everything that speaks of it. @rule BK12 */
export function renamed(record: UnitRecord, list: string, from: string, to: string): UnitRecord {
  if (list === 'windows') return renameWindow(record, from, to);
  return list === 'trials' ? renameTrial(record, from, to) : record;
}
