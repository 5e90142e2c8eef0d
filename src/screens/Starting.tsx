import { words } from './words.ts';

/**
 * What is shown until the store has been read. index.html holds the same, so that it is painted before any script has come; where
 * one does not come, the status says so (`config/firstScreen.ts`).
 */
export function Starting() {
  const { spindle, noSafetyDevice, opening, notCome } = words.start;
  return (
    <main className="starting">
      <p className="starting-name">{words.name}</p>
      <h1>{spindle}</h1>
      <p>{noSafetyDevice}</p>
      <p role="status" data-not-come={notCome}>
        {opening}
      </p>
    </main>
  );
}
