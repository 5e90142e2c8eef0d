import { lazy, Suspense, useEffect, type ReactNode } from 'react';
import type { StoreApi } from 'zustand/vanilla';
import type { AssistantState } from '../app/index.ts';
import { Boundary } from './Boundary.tsx';
import { JobsPage } from './jobs/JobsPage.tsx';
import { MachinePage } from './machine/MachinePage.tsx';
import { PhrasesPage } from './phrases/PhrasesPage.tsx';
import { AssistantContext, useAssistant } from './store.tsx';
import { useTheme } from './theme.ts';
import { words } from './words.ts';
import './look.css';
import './desk.css';
import './machine/machine.css';

/* The pages of the desk are fetched when they are first opened; the machine page and the list of jobs are there at once. */
const LayoutPage = lazy(() => import('./layout/LayoutPage.tsx'));
const RecordPage = lazy(() => import('./record/RecordPage.tsx'));
const ComparePage = lazy(() => import('./record/ComparePage.tsx'));
const VoicePage = lazy(() => import('./voice/VoicePage.tsx'));
const KeysPage = lazy(() => import('./keys/KeysPage.tsx'));

function Starting() {
  return (
    <p className="starting" role="status">
      {words.starting}
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
  return (
    <Boundary key={page} part={words.parts.page}>
      <Suspense fallback={<Starting />}>
        <Page />
      </Suspense>
    </Boundary>
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
