import { CAUTIONS, DEFERS_TO, type CautionKey } from '../../route/index.ts';
import { words } from '../words.ts';

/** A warning sign drawn here: the triangle of ISO 7010 W001 in outline, told by its shape and its word, not its colour. */
export function WarningSign() {
  return (
    <svg className="warning-sign" viewBox="0 0 48 44" aria-hidden="true">
      <path d="M24 4 L45 40 H3 Z" />
      <line x1="24" y1="16" x2="24" y2="28" />
      <circle cx="24" cy="34" r="1.6" />
    </svg>
  );
}

/** The usual caution of the step, in full, while nothing has been measured at it. */
export function CautionInFull({ caution }: { readonly caution: CautionKey }) {
  return (
    <section className="caution-full" aria-label={words.caution}>
      <WarningSign />
      <p>
        <b>{words.caution}.</b> {CAUTIONS[caution].shown}
      </p>
      <p className="defers">{DEFERS_TO}</p>
    </section>
  );
}

/** The same caution in one line, once the work goes on. */
export function CautionLine({ caution }: { readonly caution: CautionKey }) {
  return (
    <p className="caution-line">
      <WarningSign /> {CAUTIONS[caution].say}
    </p>
  );
}
