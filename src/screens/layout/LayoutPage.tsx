import { useEffect, useMemo, useState } from 'react';
import { readDraft, type Draft, type DraftGroup, type DraftProblem } from '../../part/index.ts';
import { Boundary } from '../Boundary.tsx';
import { EndView } from '../drawing/EndView.tsx';
import { PartDrawing } from '../drawing/PartDrawing.tsx';
import { Notices } from '../Notices.tsx';
import { PageHead } from '../PageHead.tsx';
import { useAssistant, useAssistantStore } from '../store.tsx';
import { words } from '../words.ts';
import { AboutSheet } from './AboutSheet.tsx';
import { Changes } from './Changes.tsx';
import { Instruments, ToolChoice } from './MachinesSheet.tsx';
import { layoutWords as w } from './layoutWords.ts';
import { fieldId } from './names.ts';
import { planOf } from './planOf.ts';
import { RouteList } from './RouteList.tsx';
import { RouteSheet } from './RouteSheet.tsx';
import { Rows } from './Rows.tsx';
import { problemOf } from './said.ts';
import { useDraft, useDraftKept } from './useDraft.ts';
import { routeOf, useRoute } from './useRoute.ts';
import { Wanted } from './Wanted.tsx';
import '../drawing/drawing.css';
import './layout.css';

const SHEETS = ['mates', 'part', 'machines', 'route'] as const;
type Sheet = (typeof SHEETS)[number];

/** The sheet that a table stands on. */
const sheetOf = (group: DraftProblem['group']): Sheet =>
  group === 'mates' ? 'mates' : group === 'machines' || group === 'instruments' ? 'machines' : 'part';

/** The readings of all mates as they are typed: while they stay the same, no mate was measured again. */
const readingsOf = (draft: Draft): string => draft.mates.map((row) => `${row.id} ${row.values['readings'] ?? ''}`).join('|');

/** The draft with its mates as they were before they were measured last; null while no reading was changed. */
function beforeMeasuring(draft: Draft, past: readonly Draft[]): Draft | null {
  const readings = readingsOf(draft);
  const other = past.findLast((each) => readingsOf(each) !== readings);
  return other === undefined ? null : { ...draft, mates: other.mates };
}

function Desk({ first }: { readonly first: Draft }) {
  const store = useAssistantStore();
  const open = useDraft(first);
  const { draft, reading, edit } = open;
  const kept = useDraftKept();
  const route = useRoute(draft, reading);
  const [sheet, setSheet] = useState<Sheet>('part');
  const [chosen, setChosen] = useState<string | null>(null);
  const [wantedField, setWantedField] = useState<string | null>(null);
  const said = useMemo(
    () => [...reading.problems, ...route.faults.map((fault) => problemOf(fault, reading))],
    [reading, route.faults],
  );
  const was = useMemo(() => {
    const before = sheet === 'mates' ? beforeMeasuring(draft, open.past) : null;
    return before === null ? null : routeOf(before, readDraft(before));
  }, [sheet, draft, open.past]);

  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      const turned = event.altKey ? SHEETS[Number(event.key) - 1] : undefined;
      if (turned === undefined) return;
      event.preventDefault();
      setSheet(turned);
    };
    document.addEventListener('keydown', onKey);
    return () => document.removeEventListener('keydown', onKey);
  }, []);
  useEffect(() => {
    if (wantedField === null) return;
    document.getElementById(wantedField)?.focus();
    setWantedField(null);
  }, [wantedField]);

  // A sheet that goes takes the focus with it: on to the name of the one that comes.
  useEffect(() => {
    if (document.activeElement === document.body) document.querySelector<HTMLElement>('.sheet-turn [aria-current]')?.focus();
  }, [sheet]);

  const go = (problem: DraftProblem, id: string | null): void => {
    setSheet(sheetOf(problem.group));
    setWantedField(id);
    if (problem.row !== null && problem.group !== 'instruments') setChosen(problem.row);
  };
  const begin = (): void => {
    const plan = planOf(reading, route);
    if (plan !== null) void store.getState().startJob(plan);
  };
  const rows = (group: DraftGroup) => (
    <Rows group={group} draft={draft} reading={reading} said={said} edit={edit} chosen={chosen} onChoose={setChosen} />
  );
  const { part } = reading;
  return (
    <>
      <PageHead title={w.title}>
        <span className="kept" role="status">
          {kept ? `✓ ${w.kept}` : w.keeping}
        </span>
        <button type="button" className="plain-button" aria-disabled={open.undo === null} onClick={() => open.undo?.()}>
          {w.undo}
        </button>
        <button type="button" className="plain-button" aria-disabled={open.redo === null} onClick={() => open.redo?.()}>
          {w.redo}
        </button>
        <button type="button" className="plain-button" disabled={route.edited === null} onClick={() => window.print()}>
          {w.printSheet}
        </button>
      </PageHead>
      <Notices />
      <h1 className="only-read">{w.title}</h1>
      <nav className="sheet-turn" aria-label={w.title}>
        {SHEETS.map((name) => (
          <button
            key={name}
            type="button"
            className="plain-button"
            aria-current={name === sheet ? 'page' : undefined}
            onClick={() => setSheet(name)}
          >
            {w.sheets[name]}
          </button>
        ))}
      </nav>
      <div className="layout-room">
        <div className="layout-sheet">
          {sheet === 'mates' && (
            <>
              {rows('mates')}
              {was?.made != null && route.made !== null && part !== null && (
                <Changes before={was.made} after={route.made} unit={part.unit} />
              )}
            </>
          )}
          {sheet === 'part' && (
            <>
              <AboutSheet draft={draft} said={said} edit={edit} />
              {rows('turned')}
              {rows('edges')}
              {rows('ends')}
              {rows('milled')}
            </>
          )}
          {sheet === 'machines' && (
            <>
              <ToolChoice draft={draft} edit={edit} />
              {rows('machines')}
              <Instruments draft={draft} said={said} edit={edit} />
            </>
          )}
          {sheet === 'route' &&
            (part === null ? (
              <p>{w.route.none}</p>
            ) : (
              <RouteList draft={draft} part={part} route={route} edit={edit} onBegin={begin} />
            ))}
        </div>
        <aside className="layout-beside" aria-label={words.parts.pictures}>
          <Boundary part={words.parts.pictures}>
            <PartDrawing
              sketch={reading.sketch}
              unit={draft.unit}
              chosen={chosen}
              onChoose={(id) => {
                setSheet('part');
                setChosen(id);
                setWantedField(fieldId(id, 'name'));
              }}
            />
          </Boundary>
          <Wanted draft={draft} said={said} onGo={go} />
          <Boundary part={words.parts.pictures}>
            <EndView sketch={reading.sketch} unit={draft.unit} />
          </Boundary>
          <p className="layout-keys">{w.keys}</p>
        </aside>
      </div>
      {part !== null && route.edited !== null && (
        <RouteSheet part={part} machines={reading.machines ?? []} edited={route.edited} sketch={reading.sketch} />
      )}
    </>
  );
}

/** The desk: a part is laid out by typing its sizes beside its drawing; its route is made meanwhile. */
export function LayoutPage() {
  const draft = useAssistant((assistant) => assistant.draft);
  return (
    <main className="desk layout">{draft === null ? <PageHead title={w.title} /> : <Desk key={draft.id} first={draft} />}</main>
  );
}
