import { formatSize, type DisplayUnit } from '../../measure/index.ts';
import type { Part, SketchFeature } from '../../part/index.ts';
import { CAUTIONS, DEFERS_TO, STOP_FIRST, type EditedRoute, type Operation } from '../../route/index.ts';
import { EndView } from '../drawing/EndView.tsx';
import { PartDrawing } from '../drawing/PartDrawing.tsx';
import { SetupSign } from '../drawing/SetupSign.tsx';
import { bareSize, unitSign } from '../show.ts';
import { layoutWords } from './layoutWords.ts';

const w = layoutWords.sheet;

function Line({ operation, at, unit }: { readonly operation: Operation; readonly at: number; readonly unit: DisplayUnit }) {
  const { title, target, cut, stop, caution, note } = operation;
  return (
    <tr>
      <td className="number">{at + 1}</td>
      <td>
        <b>{title}</b>
        {caution !== null && (
          <>
            <br />
            {w.caution}: {CAUTIONS[caution].say}
          </>
        )}
        {note !== null && (
          <>
            <br />
            {note}
          </>
        )}
      </td>
      <td className="number">{target === null ? '' : `${bareSize(target.low, unit)} – ${bareSize(target.high, unit)}`}</td>
      <td>
        {cut !== null && layoutWords.route.cut(cut.tool, cut.speedRpm)}
        {cut !== null && stop !== null && <br />}
        {stop !== null && layoutWords.route.stop(formatSize(stop.distance, unit), stop.from)}
      </td>
      <td className="sheet-write" />
    </tr>
  );
}

/** The route on paper, for the wall beside the machine: the drawing, then the steps set-up by set-up with room to write. */
export function RouteSheet({
  part,
  edited,
  sketch,
}: {
  readonly part: Part;
  readonly edited: EditedRoute;
  readonly sketch: readonly SketchFeature[];
}) {
  const { unit, stock } = part;
  const operations = edited.route.operations.filter(({ id }) => !edited.skipped.includes(id));
  const c = w.columns;
  return (
    <article className="route-sheet sheet">
      <h1>{part.name}</h1>
      <p>{w.madeOf(stock.form, formatSize(stock.size, unit), formatSize(stock.length, unit), stock.material)}</p>
      <PartDrawing sketch={sketch} unit={unit} wide={660} />
      <EndView sketch={sketch} unit={unit} />
      <p>
        {STOP_FIRST.shown} {DEFERS_TO}
      </p>
      {edited.route.setups.map((setup, index) => (
        <section key={setup.id}>
          <h2>
            <SetupSign holding={setup.holding} /> {w.setup(index + 1, setup.title)}
          </h2>
          <p>{setup.holding}</p>
          <table className="readings">
            <thead>
              <tr>
                <th scope="col">{c.step}</th>
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
                operation.setup === setup.id ? <Line key={operation.id} operation={operation} at={at} unit={unit} /> : null,
              )}
            </tbody>
          </table>
        </section>
      ))}
    </article>
  );
}
