import { useRef, type MouseEvent, type PointerEvent, type ReactNode } from 'react';

type Props = {
  readonly label: string;
  readonly below?: ReactNode;
  readonly kind?: 'plain' | 'main' | 'turn' | 'word' | 'main word';
  readonly pressed?: boolean;
  readonly spoken?: string;
  /** Presses closer together than this are one press of a shaking hand; 0 for keys that are pressed twice on purpose. */
  readonly settleMs?: number;
  readonly onPress: () => void;
};

/** The mouse and the finger leave the focus where it is, so that Enter and a pedal never press the last touched button again. */
export const keepFocus = (event: MouseEvent | PointerEvent): void => event.preventDefault();

/** A button for a knuckle or a gloved thumb. */
export function BigButton({ label, below, kind = 'plain', pressed, spoken, settleMs = 350, onPress }: Props) {
  const last = useRef(Number.NEGATIVE_INFINITY);
  return (
    <button
      type="button"
      className={`big-button ${kind}`}
      aria-label={spoken}
      aria-pressed={pressed}
      onMouseDown={keepFocus}
      onClick={(event) => {
        if (event.timeStamp - last.current < settleMs) return;
        last.current = event.timeStamp;
        onPress();
      }}
    >
      <span className="big-label">{label}</span>
      {below !== undefined && below !== null && below !== '' && <span className="big-below">{below}</span>}
    </button>
  );
}
