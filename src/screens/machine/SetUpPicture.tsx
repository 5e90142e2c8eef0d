import type { DisplayUnit, Length } from '../../measure/index.ts';
import type { SetUpView } from '../../job/index.ts';
import { bareSize } from '../show.ts';
import { setUpWords as w } from './setUpWords.ts';

type View<Of extends SetUpView['of']> = Extract<SetUpView, { readonly of: Of }>;

const WIDE = 440;
const TALL = 230;
/** The circle that stands for a turn of the work, with room for figures all round it. */
const TURN = 70;
const MIDDLE = { x: WIDE / 2, y: TALL / 2 };

/** A point so far from the middle, clockwise from the top. */
function around(degrees: number, far: number): { readonly x: number; readonly y: number } {
  const turn = (degrees * Math.PI) / 180;
  return { x: MIDDLE.x + far * Math.sin(turn), y: MIDDLE.y - far * Math.cos(turn) };
}

/** Jaws one to four, clockwise from the top. */
const JAWS = [1, 2, 3, 4] as const;

function Jaws({ view, unit }: { readonly view: View<'jaws'>; readonly unit: DisplayUnit }) {
  const { advice, readings } = view;
  const last = (jaw: number): Length | null => readings.findLast((reading) => reading.jaw === jaw)?.indicator ?? null;
  const duty = (jaw: number): 'loosen' | 'tighten' | 'read' | null => {
    if (advice.next === 'read') return advice.jaws.some((each) => each === jaw) ? 'read' : null;
    if (advice.next !== 'move') return null;
    return advice.move.loosen === jaw ? 'loosen' : advice.move.tighten === jaw ? 'tighten' : null;
  };
  const shown = (jaw: number): string | null => {
    const indicator = last(jaw);
    return indicator === null ? null : bareSize(indicator, unit);
  };
  return (
    <svg
      className="set-up"
      viewBox={`0 0 ${WIDE} ${TALL}`}
      role="img"
      aria-label={JAWS.map((jaw) => w.jaw(jaw, shown(jaw))).join('. ')}
    >
      <title>{w.jaws}</title>
      <circle className="profile-finished is-done" cx={MIDDLE.x} cy={MIDDLE.y} r={46} />
      <path className="profile-axis" d={`M${MIDDLE.x - 14},${MIDDLE.y} h28 M${MIDDLE.x},${MIDDLE.y - 14} v28`} />
      {JAWS.map((jaw) => {
        const turn = (jaw - 1) * 90;
        const at = around(turn, 72);
        const upright = jaw === 1 || jaw === 3;
        const does = duty(jaw);
        // Beside the jaw, to the right of the upright ones and further out of the others.
        const text = upright
          ? ({ x: at.x + 34, anchor: 'start' } as const)
          : ({ x: at.x + (jaw === 2 ? 38 : -38), anchor: jaw === 2 ? 'start' : 'end' } as const);
        return (
          <g key={jaw}>
            <rect
              className={`set-up-jaw is-${does ?? 'still'}`}
              x={at.x - 22}
              y={at.y - 26}
              width={44}
              height={52}
              rx={5}
              transform={`rotate(${turn} ${at.x} ${at.y})`}
            />
            <text className={`set-up-number is-${does ?? 'still'}`} x={at.x} y={at.y + 9} textAnchor="middle">
              {jaw}
            </text>
            <text className="strip-text" x={text.x} y={at.y - 2} textAnchor={text.anchor}>
              {shown(jaw) ?? ''}
            </text>
            {does !== null && (
              <text className="strip-text is-word" x={text.x} y={at.y + 22} textAnchor={text.anchor}>
                {w[does]}
              </text>
            )}
          </g>
        );
      })}
    </svg>
  );
}

/** Where figures stand that belong to a place on the turn: outside of it, away from the middle. */
function outside(degrees: number): { readonly x: number; readonly y: number; readonly textAnchor: 'start' | 'middle' | 'end' } {
  const { x } = around(degrees, TURN + 22);
  const { y } = around(degrees, TURN + 30);
  return { x, y: y + 8, textAnchor: x > MIDDLE.x + 8 ? 'start' : x < MIDDLE.x - 8 ? 'end' : 'middle' };
}

function Spot({ view, unit }: { readonly view: View<'high-spot'>; readonly unit: DisplayUnit }) {
  const { readings, nextDegrees, spot } = view;
  const said = readings.map(({ degrees, indicator }) => `${w.degrees(degrees)} ${bareSize(indicator, unit)}`);
  const found = spot === null ? null : w.spotAt(Math.round(spot.degrees));
  const expected = `${w.spotNext} ${w.degrees(nextDegrees)}`;
  const next = around(nextDegrees, TURN);
  const high = spot === null ? null : around(spot.degrees, TURN);
  return (
    <svg className="set-up" viewBox={`0 0 ${WIDE} ${TALL}`} role="img" aria-label={[...said, found ?? expected].join('. ')}>
      <title>{w.spot}</title>
      <circle className="set-up-turn" cx={MIDDLE.x} cy={MIDDLE.y} r={TURN} />
      <path className="profile-axis" d={`M${MIDDLE.x - 14},${MIDDLE.y} h28 M${MIDDLE.x},${MIDDLE.y - 14} v28`} />
      {readings.map((reading, index) => {
        const dot = around(reading.degrees, TURN);
        return (
          <g key={index}>
            <circle className="strip-dot" cx={dot.x} cy={dot.y} r={7} />
            <text className="strip-text" {...outside(reading.degrees)}>
              {bareSize(reading.indicator, unit)}
            </text>
          </g>
        );
      })}
      {high === null ? (
        <>
          <circle className="set-up-next" cx={next.x} cy={next.y} r={11} />
          <text className="strip-text is-strong" {...outside(nextDegrees)}>
            <tspan className="strip-word">{w.spotNext} </tspan>
            {w.degrees(nextDegrees)}
          </text>
        </>
      ) : (
        <>
          <line className="set-up-hand" x1={MIDDLE.x} y1={MIDDLE.y} x2={high.x} y2={high.y} />
          <circle className="set-up-high" cx={high.x} cy={high.y} r={12} />
        </>
      )}
      {found !== null && (
        <text className="strip-text is-word is-strong" x={WIDE - 6} y={TALL - 6} textAnchor="end">
          {found}
        </text>
      )}
    </svg>
  );
}

function Edges({ view, unit }: { readonly view: View<'edges'>; readonly unit: DisplayUnit }) {
  const { tip, end } = view;
  const size = bareSize(tip, unit);
  const edge = 190;
  const radius = 34;
  return (
    <svg
      className="set-up"
      viewBox={`0 0 ${WIDE} ${TALL}`}
      role="img"
      aria-label={[w.tip(size), end === null ? '' : w.end(bareSize(end, unit))].join('. ')}
    >
      <title>{w.edges}</title>
      <rect className="profile-finished is-done" x={edge} y={90} width={WIDE - edge - 6} height={TALL - 96} />
      <rect className="profile-finished" x={edge - 2 * radius} y={60} width={2 * radius} height={110} />
      <line className="profile-axis" x1={edge - radius} x2={edge - radius} y1={20} y2={TALL - 8} />
      <line className="set-up-hand" x1={edge - radius} x2={edge} y1={186} y2={186} />
      <text className="strip-text" x={edge - radius} y={44} dx={14}>
        {w.tip(size)}
      </text>
      <text className="strip-text is-word" x={edge - radius - 12} y={194} textAnchor="end">
        {w.half}
      </text>
      {end !== null && (
        <text className="strip-text is-strong" x={edge + 20} y={150}>
          {w.end(bareSize(end, unit))}
        </text>
      )}
    </svg>
  );
}

/** Turns as a person counts them: whole ones, and the quarters after them. */
function turnsText(quarters: number): string {
  const rest = ['', '¼', '½', '¾'][quarters % 4] ?? '';
  const whole = Math.floor(quarters / 4);
  return whole === 0 && rest !== '' ? rest : `${whole}${rest}`;
}

function Tap({ view }: { readonly view: View<'tap'> }) {
  const { plan, quartersDone } = view;
  const said = w.turns(turnsText(quartersDone), turnsText(plan.quarters));
  const from = 20;
  const room = WIDE - 2 * from;
  const x = (quarters: number): number => from + (room * Math.min(quarters, plan.quarters)) / Math.max(plan.quarters, 1);
  const whole = Array.from({ length: Math.floor(plan.quarters / 4) }, (_, index) => (index + 1) * 4);
  return (
    <svg className="set-up" viewBox={`0 0 ${WIDE} ${TALL}`} role="img" aria-label={said}>
      <title>{w.tap}</title>
      <rect className="set-up-turns" x={from} y={90} width={room} height={46} rx={6} />
      <rect className="set-up-turned" x={from} y={90} width={x(quartersDone) - from} height={46} rx={6} />
      {whole.map((quarters) => (
        <line key={quarters} className="strip-limit" x1={x(quarters)} x2={x(quarters)} y1={90} y2={146} />
      ))}
      <text className="strip-text is-strong" x={WIDE / 2} y={70} textAnchor="middle">
        {said}
      </text>
    </svg>
  );
}

/** Where a set-up stands, as a picture: the jaws with what to move, the high spot on its turn, the edge, the turns of the tap. */
export function SetUpPicture({ view, unit }: { readonly view: SetUpView; readonly unit: DisplayUnit }) {
  switch (view.of) {
    case 'jaws':
      return <Jaws view={view} unit={unit} />;
    case 'high-spot':
      return <Spot view={view} unit={unit} />;
    case 'edges':
      return <Edges view={view} unit={unit} />;
    case 'tap':
      return <Tap view={view} />;
  }
}
