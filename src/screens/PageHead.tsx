import { useEffect, useRef, type ReactNode } from 'react';
import { useAssistant, useAssistantStore, useIsFirstPage } from './store.tsx';
import { turnTheme, useTheme } from './theme.ts';
import { words } from './words.ts';
import './print.css';

/**
 * The head of a page at the desk: its name, its own buttons, and the way to the other pages. Not printed. The name has the focus
 * when the page comes: it is read out, the page stands at its top, and Tab goes on from there.
 */
export function PageHead({ title, children }: { readonly title: string; readonly children?: ReactNode }) {
  const store = useAssistantStore();
  const page = useAssistant((assistant) => assistant.page);
  const theme = useTheme();
  const other = theme === 'dark' ? words.theme.light : words.theme.dark;
  const name = useRef<HTMLParagraphElement>(null);
  const first = useIsFirstPage();
  useEffect(() => {
    if (!first) name.current?.focus();
  }, [first]);
  return (
    <header className="page-head">
      <p className="page-name" tabIndex={-1} ref={name}>
        {title}
      </p>
      <nav>
        {children}
        {page !== 'jobs' && (
          <button type="button" className="plain-button" onClick={() => store.getState().goTo('jobs')}>
            {words.buttons.jobs}
          </button>
        )}
        <button type="button" className="plain-button" aria-label={words.theme.change(other)} onClick={turnTheme}>
          {other}
        </button>
      </nav>
    </header>
  );
}
