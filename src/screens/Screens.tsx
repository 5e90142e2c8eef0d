import { useEffect, type ReactNode } from 'react';
import type { StoreApi } from 'zustand/vanilla';
import type { AssistantState } from '../app/index.ts';
import { Boundary } from './Boundary.tsx';
import { JobsPage } from './jobs/JobsPage.tsx';
import { MachinePage } from './machine/MachinePage.tsx';
import { PhrasesPage } from './phrases/PhrasesPage.tsx';
import { RecordPage } from './record/RecordPage.tsx';
import { AssistantContext, useAssistant } from './store.tsx';
import { useTheme } from './theme.ts';
import { words } from './words.ts';
import './look.css';
import './desk.css';
import './machine/machine.css';

function Page(): ReactNode {
  const page = useAssistant((assistant) => assistant.page);
  switch (page) {
    case 'starting':
      return (
        <p className="starting" role="status">
          {words.starting}
        </p>
      );
    case 'jobs':
      return <JobsPage />;
    case 'machine':
      return <MachinePage />;
    case 'record':
      return <RecordPage />;
    case 'phrases':
      return <PhrasesPage />;
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
      <Page />
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
