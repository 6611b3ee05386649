import { createContext } from 'preact';
import { useContext } from 'preact/hooks';
import type { UnitRecord } from '../../core/contract/unit-record';
import type { Book } from '../state/book';
import type { Advice } from '../state/advice';
import type { Filings } from '../state/filings';
import type { MixForm } from '../state/mix-form';
import type { Plans } from '../state/plans';
import type { Places } from '../state/place';

export interface BookAround {
  readonly book: Book;
  readonly places: Places;
  readonly filings: Filings;
  readonly plans: Plans;
  readonly mixForm: MixForm;
  readonly advice: Advice;
}

export const BookContext = createContext<BookAround | null>(null);

/** The book of the page; a component outside it is a defect. */
export function useBook(): BookAround {
  const around = useContext(BookContext);
  if (around === null) throw new Error('no book around this component');
  return around;
}

/** The open unit; a component that is shown without one is a defect. */
export function useUnit(): UnitRecord {
  const { record } = useBook().book.state.value;
  if (record === null) throw new Error('no unit is open');
  return record;
}
