import { lazy, Suspense, useEffect, useState, type ReactNode } from 'react';
import type { StoreApi } from 'zustand/vanilla';
import type { AssistantState } from '../app/index.ts';
import { Boundary } from './Boundary.tsx';
import { MachinePage } from './machine/MachinePage.tsx';
import { Starting } from './Starting.tsx';
import { AssistantContext, FirstPageContext, useAssistant } from './store.tsx';
import { useTheme } from './theme.ts';
import { words } from './words.ts';
import './look.css';
import './desk.css';
import './machine/machine.css';

/* Every page but the machine's is fetched when it is first opened. */
const JobsPage = lazy(async () => ({ default: (await import('./jobs/JobsPage.tsx')).JobsPage }));
const PhrasesPage = lazy(async () => ({ default: (await import('./phrases/PhrasesPage.tsx')).PhrasesPage }));
const LayoutPage = lazy(async () => ({ default: (await import('./layout/LayoutPage.tsx')).LayoutPage }));
const RecordPage = lazy(async () => ({ default: (await import('./record/RecordPage.tsx')).RecordPage }));
const ComparePage = lazy(async () => ({ default: (await import('./record/ComparePage.tsx')).ComparePage }));
const VoicePage = lazy(async () => ({ default: (await import('./voice/VoicePage.tsx')).VoicePage }));
const KeysPage = lazy(async () => ({ default: (await import('./keys/KeysPage.tsx')).KeysPage }));

/** A page that is being fetched. */
function Opening() {
  return (
    <p className="opening" role="status">
      {words.openingPage}
    </p>
  );
}

function Page(): ReactNode {
  const page = useAssistant((assistant) => assistant.page);
  switch (page) {
    case 'starting':
      return <Starting />;
    case 'jobs':
      return <JobsPage />;
    case 'machine':
      return <MachinePage />;
    case 'record':
      return <RecordPage />;
    case 'phrases':
      return <PhrasesPage />;
    case 'layout':
      return <LayoutPage />;
    case 'voice':
      return <VoicePage />;
    case 'keys':
      return <KeysPage />;
    case 'compare':
      return <ComparePage />;
  }
}

function Themed() {
  const theme = useTheme();
  useEffect(() => {
    document.documentElement.dataset['theme'] = theme;
  }, [theme]);
  const page = useAssistant((assistant) => assistant.page);
  const [shown, setShown] = useState({ page, first: true });
  if (shown.page !== page) setShown({ page, first: shown.page === 'starting' });
  return (
    <FirstPageContext value={shown.first}>
      <Boundary key={page} part={words.parts.page}>
        <Suspense fallback={<Opening />}>
          <Page />
        </Suspense>
      </Boundary>
    </FirstPageContext>
  );
}

/** Everything that is shown. The store is the assistant's; the screens change nothing but through its actions. */
export function Screens({ store }: { readonly store: StoreApi<AssistantState> }) {
  return (
    <AssistantContext value={store}>
      <Themed />
    </AssistantContext>
  );
}
