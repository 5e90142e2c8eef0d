import { useRef, useState } from 'react';
import type { DisplayUnit } from '../../measure/index.ts';
import {
  fitChoices,
  type Draft,
  type DraftEdit,
  type DraftGroup,
  type DraftReading,
  type DraftRow,
  type FitChoice,
} from '../../part/index.ts';
import { FitDrawing, fitInWords } from '../drawing/FitDrawing.tsx';
import { bareSize, bothLimits } from '../show.ts';
import { rowName } from './names.ts';
import { layoutWords as w } from './layoutWords.ts';
import { readingOf } from './said.ts';

const c = w.fits.columns;
const FAMILIES = ['by-hand', 'iso', 'inch', 'seat'] as const;
type Family = FitChoice['family'];

type Props = {
  readonly group: DraftGroup;
  readonly row: DraftRow;
  readonly draft: Draft;
  readonly reading: DraftReading;
  readonly edit: (edit: DraftEdit) => void;
};

function Choices({
  choices,
  unit,
  typed,
  onChoose,
}: {
  readonly choices: readonly FitChoice[];
  readonly unit: DisplayUnit;
  readonly typed: string;
  readonly onChoose: (word: string) => void;
}) {
  // The tables are long: each is opened by its name, and what was chosen from one keeps it open.
  const [opened, setOpened] = useState<readonly Family[]>(() => {
    const chosen = choices.find(({ word }) => word === typed)?.family;
    return ['by-hand', 'seat', ...(chosen === undefined ? [] : [chosen])];
  });
  const turn = (family: Family): void =>
    setOpened(opened.includes(family) ? opened.filter((each) => each !== family) : [...opened, family]);
  return (
    <div className="readings-wrap">
      <table className="readings fits">
        <thead>
          <tr>
            <th scope="col">{c.fit}</th>
            <th scope="col">{c.shaft}</th>
            <th scope="col">{c.clearance}</th>
            <th scope="col">{c.feels}</th>
          </tr>
        </thead>
        {FAMILIES.filter((family) => choices.some((choice) => choice.family === family)).map((family) => (
          <tbody key={family}>
            <tr>
              <th scope="rowgroup" colSpan={4}>
                <button type="button" className="row-button" aria-expanded={opened.includes(family)} onClick={() => turn(family)}>
                  {opened.includes(family) ? '▾' : '▸'} {w.fits.families[family]}
                </button>
              </th>
            </tr>
            {choices
              .filter((choice) => choice.family === family && opened.includes(family))
              .map(({ word, low, high, least, most, feels, load }) => (
                <tr key={load ?? word} className={word === typed ? 'is-chosen' : ''}>
                  <td>
                    <button type="button" className="plain-button" aria-pressed={word === typed} onClick={() => onChoose(word)}>
                      {word}
                    </button>
                  </td>
                  <td data-label={c.shaft}>{w.read.limits(...bothLimits(low, high, unit))}</td>
                  <td data-label={c.clearance}>{fitInWords(least, most, unit)}</td>
                  <td>{load === null ? feels : w.fits.loads[load]}</td>
                </tr>
              ))}
          </tbody>
        ))}
      </table>
    </div>
  );
}

/** Shows what each fit means here, at the size that the mate has, and types the one that is chosen into the diameter. */
export function FitChooser({ group, row, draft, reading, edit }: Props) {
  const [open, setOpen] = useState(false);
  const opener = useRef<HTMLButtonElement>(null);
  const mateRow = draft.mates.find((mate) => mate.id === row.values['mate']);
  const mate = mateRow === undefined ? undefined : reading.mates.get(mateRow.id);
  if (mateRow === undefined || mate === undefined) return null;
  const name = rowName(mateRow, draft.mates.indexOf(mateRow));
  const shaft = readingOf(reading, row.id, 'diameter');
  const typed = (row.values['diameter'] ?? '').trim();
  return (
    <div
      className="fit-chooser"
      onKeyDown={(event) => {
        if (event.key !== 'Escape' || !open) return;
        setOpen(false);
        opener.current?.focus();
      }}
    >
      <button ref={opener} type="button" className="row-button is-words" aria-expanded={open} onClick={() => setOpen(!open)}>
        {open ? w.fits.close : w.fits.open} · {w.fits.of(name, bareSize(mate.size, draft.unit))}
      </button>
      {open && (
        <>
          {shaft !== null && mate.holds === 'shaft' && (
            <FitDrawing
              mate={name}
              hole={{ low: mate.size, high: mate.size, uncertainty: mate.uncertainty }}
              shaft={shaft}
              readings={[]}
              now={null}
              unit={draft.unit}
            />
          )}
          <Choices
            choices={fitChoices(mate, draft.unit)}
            unit={draft.unit}
            typed={typed}
            onChoose={(word) => edit({ edit: 'type', group, row: row.id, field: 'diameter', text: word })}
          />
        </>
      )}
    </div>
  );
}
