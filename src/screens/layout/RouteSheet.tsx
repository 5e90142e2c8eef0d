import { formatSize, type DisplayUnit } from '../../measure/index.ts';
import type { Machine, Part, SketchFeature } from '../../part/index.ts';
import {
  CAUTIONS,
  DEFERS_TO,
  mateTexts,
  passTexts,
  STOP_FIRST,
  stopText,
  type EditedRoute,
  type Operation,
} from '../../route/index.ts';
import { EndView } from '../drawing/EndView.tsx';
import { PartDrawing } from '../drawing/PartDrawing.tsx';
import { SetupSign } from '../drawing/SetupSign.tsx';
import { bareSize, bothLimits, unitSign } from '../show.ts';
import { words } from '../words.ts';
import { layoutWords } from './layoutWords.ts';

const w = layoutWords.sheet;

type LineProps = {
  readonly operation: Operation;
  readonly at: number;
  readonly unit: DisplayUnit;
  readonly machine: Machine | undefined;
};

/** A step on one row, which is never cut in two by the end of a sheet of paper. */
function Line({ operation, at, unit, machine }: LineProps) {
  const { title, target, instrument, cut, stop, angle, coordinates, caution, note } = operation;
  const size = (length: Parameters<typeof bareSize>[0]): string => bareSize(length, unit);
  return (
    <tr>
      <td className="number">{at + 1}</td>
      <td>
        <b>{title}</b>
        {caution !== null && (
          <p>
            {w.caution}: {CAUTIONS[caution].say}
          </p>
        )}
        {note !== null && <p>{note}</p>}
      </td>
      <td className="number">
        {target !== null && (
          <>
            <b>{words.range(...bothLimits(target.low, target.high, unit))}</b>
            {instrument !== null && <p>{words.instruments[instrument]}</p>}
          </>
        )}
      </td>
      <td>
        {cut !== null && <p>{w.cut(cut.tool, cut.speedRpm, cut.feedPerTurn === null ? null : size(cut.feedPerTurn))}</p>}
        {passTexts(operation, unit, machine).map((pass) => (
          <p key={pass}>{pass}</p>
        ))}
        {stop !== null && <p>{w.stop(stopText(stop, unit, machine))}</p>}
        {angle !== null && <p>{w.angle(angle)}</p>}
        {coordinates.map(({ at: where, x, y, z }) => (
          <p key={where}>{w.coordinates(where, size(x), size(y), size(z))}</p>
        ))}
      </td>
      <td />
    </tr>
  );
}

/**
 * The route on paper, for the wall beside the machine: the drawing and the mates, then the steps set-up by set-up with their
 * passes and room to write. All its tables have the same columns.
 */
export function RouteSheet({
  part,
  machines,
  edited,
  sketch,
}: {
  readonly part: Part;
  readonly machines: readonly Machine[];
  readonly edited: EditedRoute;
  readonly sketch: readonly SketchFeature[];
}) {
  const { unit, stock } = part;
  const operations = edited.route.operations.filter(({ id }) => !edited.skipped.includes(id));
  const setups = edited.route.setups.filter(({ id }) => operations.some(({ setup }) => setup === id));
  const c = w.columns;
  const mates = mateTexts(part);
  return (
    <article className="route-sheet sheet">
      <h1>{part.name}</h1>
      <p>{w.madeOf(stock.form, formatSize(stock.size, unit), formatSize(stock.length, unit), stock.material)}</p>
      <div className="sheet-pictures">
        <PartDrawing sketch={sketch} unit={unit} wide={660} />
        <EndView sketch={sketch} unit={unit} />
      </div>
      {mates.length > 0 && (
        <ul className="sheet-mates" aria-label={layoutWords.sheets.mates}>
          {mates.map((mate) => (
            <li key={mate}>{mate}</li>
          ))}
        </ul>
      )}
      <p>
        {STOP_FIRST.shown} {DEFERS_TO}
      </p>
      {setups.map((setup, index) => {
        const machine = machines.find(({ id }) => id === setup.machine);
        return (
          <section key={setup.id}>
            <h2>
              <SetupSign holding={setup.holding} /> {w.setup(index + 1, setup.title)}
              {machine !== undefined && `, ${machine.name}`}
            </h2>
            <p className="sheet-holding">{setup.holding}</p>
            <table className="readings sheet-steps">
              <thead>
                <tr>
                  <th scope="col" className="number">
                    {c.step}
                  </th>
                  <th scope="col">{c.what}</th>
                  <th scope="col" className="number">
                    {c.size} ({unitSign(unit)})
                  </th>
                  <th scope="col">{c.cut}</th>
                  <th scope="col">{c.done}</th>
                </tr>
              </thead>
              <tbody>
                {operations.map((operation, at) =>
                  operation.setup === setup.id ? (
                    <Line key={operation.id} operation={operation} at={at} unit={unit} machine={machine} />
                  ) : null,
                )}
              </tbody>
            </table>
          </section>
        );
      })}
    </article>
  );
}
