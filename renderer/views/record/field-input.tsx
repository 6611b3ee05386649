import type { JSX } from 'preact';
import { useId } from 'preact/hooks';
import { unsavedText, wordsAtField } from '../../state/book-state';
import { useBook, useUnit } from '../book-context';
import { pathText, textOfValue, valueAt, type FieldPath } from './field-path';
import type { FieldKind, RecordField } from './fields';
import { useTyped } from './use-typed';

interface EditorProps {
  readonly id: string;
  readonly kind: FieldKind;
  readonly text: string;
  readonly isWrong: boolean;
  readonly isLocked: boolean;
  readonly describedBy: string | undefined;
  readonly onText: (text: string) => void;
  readonly onDone: (text: string) => void;
}

const yesNoWords = { yes: 'yes', no: 'no' } as const;

function Choice(props: EditorProps & { readonly words: Readonly<Record<string, string>> }): JSX.Element {
  const { id, text, words, isWrong, isLocked, describedBy, onDone } = props;
  return (
    <select
      id={id}
      value={text}
      disabled={isLocked}
      aria-invalid={isWrong}
      aria-describedby={describedBy}
      onChange={(event) => onDone(event.currentTarget.value)}
    >
      <option value="">not recorded</option>
      {Object.entries(words).map(([value, word]) => (
        <option key={value} value={value}>
          {word}
        </option>
      ))}
    </select>
  );
}

/** A number as it is typed here or there: a comma is a decimal point. */
const plainNumber = (text: string): string => text.trim().replace(',', '.');

function Editor(props: EditorProps): JSX.Element {
  const { id, kind, text, isWrong, isLocked, describedBy, onText, onDone } = props;
  const shared = { id, value: text, disabled: isLocked, 'aria-invalid': isWrong, 'aria-describedby': describedBy };
  switch (kind.as) {
    case 'choice':
      return <Choice {...props} words={kind.words} />;
    case 'yes-no':
      return <Choice {...props} words={yesNoWords} />;
    case 'text':
      return (
        <textarea
          {...shared}
          rows={Math.min(8, Math.max(2, Math.ceil(text.length / 36)))}
          onInput={(event) => onText(event.currentTarget.value)}
          onChange={(event) => onDone(event.currentTarget.value.trim())}
        />
      );
    case 'number':
      return (
        <span class="with-unit">
          <input
            {...shared}
            inputMode="decimal"
            onInput={(event) => onText(event.currentTarget.value)}
            onChange={(event) => onDone(plainNumber(event.currentTarget.value))}
          />
          {kind.unit !== '' && <span>{kind.unit}</span>}
        </span>
      );
    case 'day':
      return <input {...shared} type="date" onChange={(event) => onDone(event.currentTarget.value)} />;
    case 'line':
      return (
        <input
          {...shared}
          onInput={(event) => onText(event.currentTarget.value)}
          onChange={(event) => onDone(event.currentTarget.value.trim())}
        />
      );
  }
}

/**
 * One field of the open unit, saved when it is left. What cannot be saved yet stays in it; what is refused stays with the
 * reason under it.
 */
export function FieldInput(props: { readonly of?: FieldPath; readonly field: RecordField }): JSX.Element {
  const { of = [], field } = props;
  const { book } = useBook();
  const record = useUnit();
  const id = useId();
  const path = pathText([...of, ...field.path]);
  const { unsaved, refusedFields, readOnly } = book.state.value;
  const kept = unsavedText(unsaved, record.id, path) ?? textOfValue(valueAt(record, [...of, ...field.path]));
  const refused = refusedFields.get(path);
  const [text, setText] = useTyped(kept, refused !== undefined);
  const done = (typed: string): void => {
    setText(typed);
    if (typed !== kept || refused) book.set(path, typed, field.label);
  };
  const noteId = refused || field.hint ? `${id}-note` : undefined;
  return (
    <div class="field" data-field={path}>
      <label for={id}>{field.label}</label>
      <Editor
        id={id}
        kind={field.kind}
        text={text}
        isWrong={refused !== undefined}
        isLocked={readOnly !== null}
        describedBy={noteId}
        onText={setText}
        onDone={done}
      />
      {refused ? (
        <span id={noteId} class="wrong" role="alert">
          {wordsAtField(refused)}
        </span>
      ) : (
        field.hint && (
          <span id={noteId} class="hint">
            {field.hint}
          </span>
        )
      )}
    </div>
  );
}

/** Fields side by side where there is room. */
export function Fields(props: { readonly of?: FieldPath; readonly fields: readonly RecordField[] }): JSX.Element {
  return (
    <div class="record-fields">
      {props.fields.map((field) => (
        <FieldInput key={pathText(field.path)} field={field} {...(props.of ? { of: props.of } : {})} />
      ))}
    </div>
  );
}
