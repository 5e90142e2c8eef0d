import { readFileSync } from 'node:fs';
import { renderToStaticMarkup } from 'react-dom/server';
import { expect, test } from 'vitest';
import { Starting } from '../../src/screens/Starting.tsx';

const page = readFileSync(new URL('../../index.html', import.meta.url), 'utf8');
const close = (markup: string): string => markup.replaceAll(/\s+</g, '<').replaceAll(/>\s+/g, '>');

test('what index.html paints before any script has come is what the screens show first', () => {
  const painted = /<div id="root">([^]*?)<\/div>/.exec(page)?.[1] ?? '';
  expect(close(painted)).toBe(renderToStaticMarkup(<Starting />));
});

test('index.html looks for the theme where the screens keep it', () => {
  const kept = /KEPT_UNDER = '([^']+)'/.exec(readFileSync(new URL('../../src/screens/theme.ts', import.meta.url), 'utf8'))?.[1];
  expect(kept).toBeDefined();
  expect(page).toContain(`localStorage.getItem('${kept ?? ''}')`);
});
