import type { ComponentChildren, JSX } from 'preact';
import { lengthOfText } from './outline/draft';
import { kindsOf } from './words';

/** The kinds of a list with their words, to choose among. */
export function Kinds<Kind extends string>({ words }: { readonly words: Readonly<Record<Kind, string>> }): JSX.Element {
  return (
    <>
      {kindsOf(words).map((kind) => (
        <option key={kind} value={kind}>
          {words[kind]}
        </option>
      ))}
    </>
  );
}

interface ChoiceProps<Kind extends string> {
  readonly label: string;
  readonly value: Kind;
  readonly words: Readonly<Record<Kind, string>>;
  readonly onChange: (kind: Kind) => void;
  /** What stands under it. */
  readonly children?: ComponentChildren;
}

/** One kind of several. */
export function Choice<Kind extends string>(props: ChoiceProps<Kind>): JSX.Element {
  const { label, value, words, onChange, children } = props;
  return (
    <label class="field">
      {label}
      <select value={value} onChange={(event) => onChange(event.currentTarget.value as Kind)}>
        <Kinds words={words} />
      </select>
      {children}
    </label>
  );
}

interface NumberFieldProps {
  readonly label: string;
  readonly unit: string;
  /** As typed; empty where nothing is said. */
  readonly text: string;
  readonly isWrong: boolean;
  readonly hint: string;
  /** At each letter. */
  readonly onChange: (text: string) => void;
  /** When it is left. */
  readonly onLeave?: (text: string) => void;
}

/** A number that a person types; a wrong one says what is expected. */
export function NumberField(props: NumberFieldProps): JSX.Element {
  const { label, unit, text, isWrong, hint, onChange, onLeave } = props;
  return (
    <label class="field">
      {label}
      <span class="with-unit">
        <input
          inputMode="decimal"
          value={text}
          aria-invalid={isWrong}
          onInput={(event) => onChange(event.currentTarget.value)}
          onChange={(event) => onLeave?.(event.currentTarget.value)}
        />
        <span>{unit}</span>
      </span>
      {isWrong && <span role="alert">{hint}</span>}
    </label>
  );
}

type LengthFieldProps = Pick<NumberFieldProps, 'label' | 'text' | 'onChange' | 'onLeave'>;

/** A length of a window, in mm. */
export function LengthField(props: LengthFieldProps): JSX.Element {
  const isWrong = props.text.trim() !== '' && lengthOfText(props.text) === null;
  return <NumberField {...props} unit="mm" isWrong={isWrong} hint="A length of 2 to 2000 mm, as 92 or 92.5" />;
}
