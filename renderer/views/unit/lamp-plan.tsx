import type { JSX, RefObject } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import type { UnitLamp, UnitTrial, UnitWindow } from '../../../core/contract/unit-record';
import { unsavedText } from '../../state/book-state';
import { useBook, useUnit } from '../book-context';
import { ofLamp, ofTrial, pathText } from '../record/field-path';
import { LampTable } from './lamp-table';
import {
  firstPlace,
  gripMm,
  keptOnPlan,
  marginMm,
  movedByKey,
  nameGapMm,
  nextName,
  placeOfLamp,
  placeOfText,
  placeText,
  planBox,
  toStep,
  usualBodyMm,
  type LampPlace,
} from './plan-places';
import { trialPhoto } from './unit-facts';
import { WindowPicture } from './window-picture';

/** Keys may come so quickly after one another and still be one change. */
const keyPauseMs = 700;

interface PlanProps {
  readonly window: UnitWindow;
  readonly trial: UnitTrial;
}

interface Moved {
  readonly lamp: string;
  readonly place: LampPlace;
}

/** Letters and marks keep their size on the screen, whatever the window's. */
const letterPx = 12;

function usePxPerMm(drawing: RefObject<SVGSVGElement | null>, { widthMm }: UnitWindow): number {
  const [widthPx, setWidthPx] = useState(700);
  useEffect(() => {
    if (!drawing.current) return undefined;
    const watch = new ResizeObserver(([entry]) => setWidthPx(entry.contentRect.width));
    watch.observe(drawing.current);
    return () => watch.disconnect();
  }, []);
  return Math.max(0.1, widthPx / (widthMm + 2 * marginMm));
}

function WindowOutline({ window }: { readonly window: UnitWindow }): JSX.Element {
  const { widthMm, heightMm, outline } = window;
  if (outline?.kind === 'ellipse') {
    return <ellipse class="window" cx={widthMm / 2} cy={heightMm / 2} rx={widthMm / 2} ry={heightMm / 2} />;
  }
  if (outline?.kind === 'polygon') return <polygon class="window" points={outline.pointsMm.map(String).join(' ')} />;
  return <rect class="window" width={widthMm} height={heightMm} />;
}

/** The lamps of a trial on the outline of its window, seen from the front, in mm; moved by dragging, by keys or by numbers. */
export function LampPlan({ window, trial }: PlanProps): JSX.Element {
  const { book } = useBook();
  const record = useUnit();
  const isLocked = book.state.value.readOnly !== null;
  const drawing = useRef<SVGSVGElement>(null);
  const [moved, setMoved] = useState<Moved | null>(null);
  const { lamps = [] } = trial;
  const photo = trialPhoto(record, window.name, trial.name);

  const { unsaved } = book.state.value;
  const fieldOf = (lamp: string): string => pathText([...ofLamp(trial.name, lamp), 'positionMm']);
  const save = ({ lamp, place }: Moved): void =>
    book.set(fieldOf(lamp), placeText(place), `${lamp} moved to ${placeText(place)} mm`);
  /** Where it is about to be saved, else where the record has it. */
  const restingPlace = (lamp: UnitLamp): LampPlace | null => {
    const text = unsavedText(unsaved, record.id, fieldOf(lamp.name));
    return text === undefined ? placeOfLamp(lamp) : placeOfText(text);
  };
  const drawnPlace = (lamp: UnitLamp): LampPlace | null =>
    moved?.lamp === lamp.name ? moved.place : restingPlace(lamp);
  const add = (): void => {
    const name = nextName('lamp', lamps);
    const path = [...ofTrial(trial.name), 'lamps', { item: name }, 'positionMm'];
    book.set(pathText(path), placeText(firstPlace(window)), `${name} added`);
  };

  const placeUnder = (event: PointerEvent): readonly [number, number] | null => {
    const toPage = drawing.current?.getScreenCTM();
    if (!toPage) return null;
    const { x, y } = new DOMPoint(event.clientX, event.clientY).matrixTransform(toPage.inverse());
    return [x, y];
  };
  const { widthMm, heightMm } = window;
  const pxPerMm = usePxPerMm(drawing, window);
  // Of lamps at rest: the plan does not move under a hand that moves one.
  const atRest = lamps.map((lamp) => ({ place: restingPlace(lamp), bodyMm: lamp.bodyMm ?? usualBodyMm }));
  const box = planBox(window, atRest, letterPx / pxPerMm);
  return (
    <div class="lamp-plan" data-plan={trial.name}>
      <header>
        <h3>Lamps of {trial.name}</h3>
        <span class="hint">
          Seen from the front, mm from the top left corner. Drag a lamp, or use arrow keys: 0.5 mm, with Shift 5 mm.
        </span>
        <button disabled={isLocked} onClick={add}>
          Add a lamp
        </button>
      </header>
      <div
        class="plan-drawing"
        style={{ maxWidth: `${(760 * box[2]) / Math.max(box[2], 2.2 * (heightMm + 2 * marginMm))}px` }}
      >
        {photo && (
          <span
            class="backdrop"
            style={{
              left: `${(100 * marginMm) / box[2]}%`,
              top: `${(100 * -box[1]) / box[3]}%`,
              width: `${(100 * widthMm) / box[2]}%`,
            }}
          >
            <WindowPicture
              asked={{ unit: record.id, sha256: photo.sha256, window: window.name }}
              revision={record.revision}
              label=""
              instead=""
              aspect={widthMm / heightMm}
              isRound={window.outline?.kind === 'ellipse'}
            />
          </span>
        )}
        <svg
          ref={drawing}
          viewBox={box.join(' ')}
          style={{ fontSize: `${(letterPx / pxPerMm).toFixed(3)}px` }}
          role="group"
          aria-label={`Lamps of ${trial.name} on ${window.name}`}
        >
          <WindowOutline window={window} />
          <PlanRuler window={window} />
          {lamps.map((lamp) => (
            <DrawnLamp
              key={lamp.name}
              lamp={lamp}
              place={drawnPlace(lamp)}
              isLocked={isLocked}
              placeUnder={placeUnder}
              onMove={(place) => setMoved({ lamp: lamp.name, place: keptOnPlan(place, window) })}
              onDone={(place) => {
                setMoved(null);
                if (place) save({ lamp: lamp.name, place: keptOnPlan(place, window) });
              }}
            />
          ))}
        </svg>
      </div>
      {lamps.length === 0 ? (
        <p class="hint">No lamp is recorded for this trial. Where each one sits is what the next unit is built by.</p>
      ) : (
        <LampTable trial={trial} window={window} />
      )}
    </div>
  );
}

/** Marks every 10 mm along two sides. */
function PlanRuler({ window }: { readonly window: UnitWindow }): JSX.Element {
  const marks = (sizeMm: number): number[] => Array.from({ length: Math.floor(sizeMm / 10) + 1 }, (_, i) => 10 * i);
  return (
    <g class="ruler-marks" aria-hidden="true">
      {marks(window.widthMm).map((x) => (
        <g key={`x${x}`}>
          <path d={`M${x} ${window.heightMm}v${x % 50 === 0 ? 2.4 : 1.4}`} />
          {x % (window.widthMm > 60 ? 20 : 10) === 0 && (
            <text x={x} y={window.heightMm + 2.8} dy="0.8em" text-anchor="middle">
              {x}
            </text>
          )}
        </g>
      ))}
      {marks(window.heightMm).map((y) => (
        <g key={`y${y}`}>
          <path d={`M0 ${y}h-1.4`} />
          <text x={-2} y={y} dy="0.35em" text-anchor="end">
            {y}
          </text>
        </g>
      ))}
    </g>
  );
}

interface Hold {
  /** From the lamp's middle to where it was taken hold of, mm. */
  readonly grip: readonly [number, number];
  readonly from: LampPlace;
}

function DrawnLamp(props: {
  readonly lamp: UnitLamp;
  readonly place: LampPlace | null;
  readonly isLocked: boolean;
  readonly placeUnder: (event: PointerEvent) => readonly [number, number] | null;
  readonly onMove: (place: LampPlace) => void;
  /** null: it stays where it was. */
  readonly onDone: (place: LampPlace | null) => void;
}): JSX.Element | null {
  const { lamp, place, isLocked, placeUnder, onMove, onDone } = props;
  const [hold, setHold] = useState<Hold | null>(null);
  const byKeys = useRef<{ readonly place: LampPlace; readonly timer: ReturnType<typeof setTimeout> } | null>(null);
  const finishKeys = (): void => {
    if (!byKeys.current) return;
    clearTimeout(byKeys.current.timer);
    const { place: last } = byKeys.current;
    byKeys.current = null;
    onDone(last);
  };
  // A lamp that goes out of view is where the keys have brought it.
  const finish = useRef(finishKeys);
  finish.current = finishKeys;
  useEffect(() => () => finish.current(), []);
  if (!place) return null;
  const [x, y, z] = place;
  const radius = (lamp.bodyMm ?? usualBodyMm) / 2;
  const [tiltX, tiltY] = lamp.tiltDeg ?? [0, 0];
  const isOff = lamp.on === false;
  const dragged = (event: PointerEvent): LampPlace | null => {
    const under = hold && placeUnder(event);
    return under ? [toStep(under[0] - hold.grip[0]), toStep(under[1] - hold.grip[1]), z] : null;
  };
  return (
    <g
      class={`lamp ${isOff ? 'off' : ''}`}
      tabIndex={isLocked ? undefined : 0}
      role="img"
      aria-label={`${lamp.name}${isOff ? ', off' : ''}: ${x} mm across, ${y} mm down, ${z} mm behind. Arrow keys move it.`}
      data-lamp={lamp.name}
      onPointerDown={(event) => {
        if (isLocked) return;
        const under = placeUnder(event);
        if (!under) return;
        finishKeys();
        event.currentTarget.setPointerCapture(event.pointerId);
        event.currentTarget.focus();
        setHold({ grip: [under[0] - x, under[1] - y], from: place });
      }}
      onPointerMove={(event) => {
        const next = dragged(event);
        if (next) onMove(next);
      }}
      onPointerUp={(event) => {
        const next = dragged(event);
        const isMoved = hold && next && (next[0] !== toStep(hold.from[0]) || next[1] !== toStep(hold.from[1]));
        setHold(null);
        onDone(isMoved ? next : null);
      }}
      onPointerCancel={() => {
        setHold(null);
        onDone(null);
      }}
      onKeyDown={(event) => {
        const isCommand = event.ctrlKey || event.altKey || event.metaKey;
        const isMove = !isLocked && !isCommand;
        const next = isMove ? movedByKey(byKeys.current?.place ?? place, event.key, event.shiftKey) : null;
        if (!next) {
          // Whatever else is done by keys, as Ctrl Z, comes after the move: it has to be in the book by then.
          if (event.key !== 'Shift') finishKeys();
          return;
        }
        event.preventDefault();
        event.stopPropagation();
        if (byKeys.current) clearTimeout(byKeys.current.timer);
        byKeys.current = { place: next, timer: setTimeout(finishKeys, keyPauseMs) };
        onMove(next);
      }}
      onBlur={finishKeys}
    >
      <circle class="reach" cx={x} cy={y} r={Math.max(radius, gripMm)} />
      <circle class="body" cx={x} cy={y} r={radius} />
      {(tiltX !== 0 || tiltY !== 0) && <path class="tilt" d={`M${x} ${y}l${tiltX / 4} ${tiltY / 4}`} />}
      <text x={x} y={y - radius - nameGapMm} text-anchor="middle">
        {lamp.name}
      </text>
    </g>
  );
}
