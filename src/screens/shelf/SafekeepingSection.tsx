import { useState } from 'react';
import { useStore, type StoreApi } from 'zustand';
import type { Safekeeping } from '../../app/index.ts';
import { saveFile } from '../saveFile.ts';
import { showMoment } from '../show.ts';
import { useAssistant } from '../store.tsx';
import { shelfWords } from './words.ts';

const w = shelfWords.safe;

type Props = { readonly label: string; readonly about?: string; readonly press: () => void };
function Choice({ label, about, press }: Props) {
  return (
    <button type="button" className="choice" onClick={press}>
      <b>{label}</b>
      {about !== undefined && <span>{about}</span>}
    </button>
  );
}

function Folder({ safe }: { readonly safe: Safekeeping }) {
  const { folder, canChoose } = safe;
  if (!canChoose) return <p>{w.cannotChoose}</p>;
  return (
    <>
      <p>{folder === null ? w.noFolder : w.folder[folder.standing](folder.name)}</p>
      <div className="choices">
        {folder !== null && folder.standing !== 'kept' && <Choice label={w.allow} press={() => void safe.allowFolder()} />}
        <Choice label={w.choose} about={w.chooseAbout} press={() => void safe.chooseFolder()} />
        {folder !== null && <Choice label={w.leave} press={() => void safe.leaveFolder()} />}
        <Choice label={w.restore} about={w.restoreAbout} press={() => void safe.restoreFolder()} />
      </div>
    </>
  );
}

function Diagnostic({ safe }: { readonly safe: Safekeeping }) {
  const [withJob, setWithJob] = useState(false);
  const save = async (): Promise<void> => {
    const file = await safe.diagnosticFile(withJob);
    saveFile(file.fileName, file.text);
  };
  return (
    <section>
      <h2>{shelfWords.diagnostic.title}</h2>
      <div className="choices">
        <Choice label={shelfWords.diagnostic.save} about={shelfWords.diagnostic.saveAbout} press={() => void save()} />
      </div>
      <label>
        <input type="checkbox" checked={withJob} onChange={(event) => setWithJob(event.target.checked)} />{' '}
        {shelfWords.diagnostic.withJob}
      </label>
    </section>
  );
}

/** Where the record is kept, how it is backed up, and what was set aside. */
export function SafekeepingSection({ store }: { readonly store: StoreApi<Safekeeping> }) {
  const safe = useStore(store);
  const open = useAssistant((assistant) => assistant.job !== null);
  const saveSetAside = (): void => {
    const file = safe.setAsideFile();
    if (file !== null) saveFile(file.fileName, file.text);
  };
  return (
    <>
      <section>
        <h2>{w.title}</h2>
        <p>{w.persistence[safe.persistence]}</p>
        <p>{w.copy[safe.copy]}</p>
        {open && <p>{safe.saved === null ? w.notSaved : w.saved(showMoment(safe.saved.at), safe.saved.events)}</p>}
        <Folder safe={safe} />
        {safe.setAside.length > 0 && (
          <div className="choices">
            <Choice label={w.setAside(safe.setAside.length)} about={w.setAsideAbout} press={saveSetAside} />
          </div>
        )}
      </section>
      <Diagnostic safe={safe} />
    </>
  );
}
