import { useSyncExternalStore } from 'react';
import { createRoot } from 'react-dom/client';
import { Screens } from '../index.ts';
import { SCENES } from './scenes.ts';
import { STEP_SCENES } from './stepScenes.ts';

const ALL = { ...SCENES, ...STEP_SCENES };

const wanted = (): string => decodeURIComponent(location.hash.slice(1));

const onChange = (listener: () => void): (() => void) => {
  addEventListener('hashchange', listener);
  return () => {
    removeEventListener('hashchange', listener);
  };
};

/** The scene that the address names after its #, or the list of all. */
function Gallery() {
  const name = useSyncExternalStore(onChange, wanted);
  const scene = ALL[name];
  if (scene !== undefined) return <Screens key={name} store={scene()} />;
  return (
    <main className="desk">
      <h1>Gallery of the screens</h1>
      <ul>
        {Object.keys(ALL).map((each) => (
          <li key={each}>
            <a href={`#${each}`}>{each}</a>
          </li>
        ))}
      </ul>
    </main>
  );
}

const place = document.getElementById('root');
if (place === null) throw new Error('index.html has no #root');
createRoot(place).render(<Gallery />);
