import type { JSX } from 'preact';

interface SliderProps {
  readonly label: string;
  readonly unit: string;
  readonly value: number;
  readonly from: number;
  readonly to: number;
  readonly step: number;
  readonly digits?: number;
  /** Said in place of value and unit. */
  readonly shown?: string;
  readonly onChange: (value: number) => void;
}

/** A value between two ends, by mouse or arrow keys, with the value beside it. */
export function Slider(props: SliderProps): JSX.Element {
  const { label, unit, value, from, to, step, digits = 1, onChange } = props;
  const shown = props.shown ?? `${value.toFixed(digits)} ${unit}`;
  return (
    <label class="try-slider">
      <span>{label}</span>
      <input
        type="range"
        min={from}
        max={to}
        step={step}
        value={value}
        aria-valuetext={shown}
        onInput={(event) => onChange(event.currentTarget.valueAsNumber)}
      />
      <output>{shown}</output>
    </label>
  );
}
