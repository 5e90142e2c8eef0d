import { createRoot } from 'react-dom/client';
import { Screens } from '../index.ts';
import { SCENES } from './scenes.ts';

const place = document.getElementById('root');
if (place === null) throw new Error('index.html has no #root');
const wanted = new URLSearchParams(location.search).get('scene');
const scene = wanted === null ? undefined : SCENES[wanted];

createRoot(place).render(
  scene === undefined ? (
    <main className="desk">
      <h1>Gallery of the screens</h1>
      <ul>
        {Object.keys(SCENES).map((name) => (
          <li key={name}>
            <a href={`?scene=${name}`}>{name}</a>
          </li>
        ))}
      </ul>
    </main>
  ) : (
    <Screens store={scene()} />
  ),
);
