import { useEffect, useRef, useState } from 'preact/hooks';
import type { AddedArchive } from '../../core/contract/book-verbs';
import type { Bench } from '../state/bench';
import { layUnit, settingsOfFirstPhoto, settingsOfNextPhoto } from '../state/lay-unit';
import type { BookAround } from './book-context';

/** @param over  what lay under them when they were dropped; null: they were chosen or pasted */
export type TakeFiles = (files: readonly File[], over: Element | null) => void;

/** Takes files dropped anywhere on the page, and pasted ones. @returns whether something is being dragged over it */
export function useDrops(take: TakeFiles): boolean {
  const taking = useRef(take);
  taking.current = take;
  const [isOver, setIsOver] = useState(false);
  useEffect(() => {
    const over = (event: DragEvent): void => {
      event.preventDefault();
      setIsOver(true);
    };
    const leave = (event: DragEvent): void => {
      if (event.relatedTarget === null) setIsOver(false);
    };
    const drop = (event: DragEvent): void => {
      event.preventDefault();
      setIsOver(false);
      const target = event.target instanceof Element ? event.target : null;
      taking.current([...(event.dataTransfer?.files ?? [])], target);
    };
    const paste = (event: ClipboardEvent): void => taking.current([...(event.clipboardData?.files ?? [])], null);
    document.addEventListener('dragover', over);
    document.addEventListener('dragleave', leave);
    document.addEventListener('drop', drop);
    document.addEventListener('paste', paste);
    return () => {
      document.removeEventListener('dragover', over);
      document.removeEventListener('dragleave', leave);
      document.removeEventListener('drop', drop);
      document.removeEventListener('paste', paste);
    };
  }, []);
  return isOver;
}

/** A unit in one file that the program was opened with. */
export async function takeArchive(added: AddedArchive, { book, places }: BookAround): Promise<void> {
  const record = await book.importArchive(added);
  if (record) places.goTo({ at: 'unit', unit: record.id, view: 'windows' });
}

const isArchive = ({ name }: File): boolean => /\.evendial$/i.test(name);

/**
 * Photos are measured on the bench at once, wherever they came in; over a unit they are read as that unit's are. Units that
 * come in one file go into the book.
 */
export async function takeFiles(
  files: readonly File[],
  over: Element | null,
  bench: Bench,
  { book, places, filings }: BookAround,
): Promise<void> {
  for (const archive of files.filter(isArchive)) {
    const record = await book.importFile(archive);
    if (record) places.goTo({ at: 'unit', unit: record.id, view: 'windows' });
  }
  const photos = files.filter((file) => !isArchive(file));
  if (photos.length === 0) return;
  const { record } = book.state.value;
  const place = places.now.value;
  places.goTo({ at: 'bench' });
  if (place.at !== 'unit' || record?.id !== place.unit) return bench.addFiles(photos);
  const named = over?.closest<HTMLElement>('[data-window]')?.dataset['window'];
  const window = record.windows.find(({ name }) => name === named) ?? record.windows.at(0);
  const isKnown = record.photos.length > 0 && window !== undefined;
  const laid = isKnown ? await layUnit(bench, book, filings, record, window.name) : null;
  return bench.addFiles(photos, settingsOfNextPhoto(laid ?? []) ?? settingsOfFirstPhoto(record, window));
}
