import { createStore, type StoreApi } from 'zustand/vanilla';
import { z } from 'zod';
import type { Ear, HearingTimes, ListeningMode } from '../ear/index.ts';
import { nextSeq, type Effect } from '../job/index.ts';
import { speakReply, textOfReply } from '../phrasebook/index.ts';
import {
  describeDamage,
  describeShelfFault,
  openLog,
  type JobHold,
  type OpenLog,
  type ShelfFault,
  type StoredJob,
} from '../shelf/index.ts';
import type { AssistantState } from './assistantState.ts';
import { Conversation, type Turn } from './conversation.ts';
import { hearingOf } from './hearing.ts';
import { draftsOn } from './draftList.ts';
import { listenedTo } from './earListener.ts';
import { keepMemo } from './keepMemo.ts';
import { lateDesk } from './lateDesk.ts';
import { lateJobFiles } from './lateJobFiles.ts';
import { noticesOf } from './notices.ts';
import type { AssistantDeps } from './assistantDeps.ts';
import type { PageEar, VoicePort } from './ports.ts';
import { asSpoken } from './shortened.ts';

const LAST_JOB = 'last-job';
const LISTENING = 'listening-mode';
const modeSchema = z.enum(['hold', 'call', 'open']);

/**
 * The assistant as the screens see it: one store of state and functions. All that is heard, typed or pressed goes through one
 * `Conversation` a job; what it answers is shown and spoken. A fault of ear or voice is shown and leaves the rest working.
 */
export function createAssistant(deps: AssistantDeps): StoreApi<AssistantState> {
  let conversation: Conversation | null = null;
  let job: StoredJob | null = null;
  let log: OpenLog | null = null;
  let hold: JobHold | null = null;
  let ear: PageEar | null = null;
  let earStarting: Promise<void> = Promise.resolve();
  let voice: VoicePort | null = null;
  let voiceOpening: Promise<void> | null = null;

  const store: StoreApi<AssistantState> = createStore<AssistantState>()(() => ({
    page: 'starting',
    jobs: [],
    job: null,
    heard: null,
    reply: null,
    listening: { mode: 'hold', state: 'off', levelDb: null, floorDb: null, tooLoud: false, callName: '', called: false },
    volume: 1,
    speech: null,
    instrument: null,
    notices: [],
    unstored: 0,
    drafts: [],
    draft: null,
    draftKept: true,
    ...lateDesk(deps, {
      get: () => store.getState(),
      set: (change) => store.setState(change),
      trouble: (fault) => shelfTrouble(fault),
      say: (text) => notifyAtOnce({ id: 'file', part: 'file', text, remedy: null }),
      openJob: (id) => refreshJobs().then(() => openJob(id)),
    }),
    goTo: (page) => {
      if (page === 'machine' && job === null) return;
      store.setState({ page });
      if (page === 'jobs') void refreshJobs();
    },
    openJob: (id) => openJob(id),
    ...lateJobFiles(deps, {
      open: () => (job === null || log === null ? null : { job, log }),
      openJob: (id) => refreshJobs().then(() => openJob(id)),
      openUnstored,
      trouble: (fault) => shelfTrouble(fault),
      say: (text) => notifyAtOnce({ id: 'file', part: 'file', text, remedy: null }),
      settled: () => settle('file'),
    }),
    command: (intent) => turn((talk) => talk.press(intent)),
    typed,
    answer: (choice) =>
      turn((talk) => {
        const { question } = talk.talk;
        // The second of two values is taken at once: "no" alone would only ask about it.
        const second = choice === 'second' && question?.about === 'which-value' ? question.other : null;
        return talk.press(second ?? { type: choice === 'yes' || choice === 'first' ? 'yes' : 'no' });
      }),
    listen,
    stopListening: () => {
      ear?.stop();
      listening({ state: 'off', levelDb: null, floorDb: null, tooLoud: false });
    },
    hold: () => {
      voice?.hush();
      ear?.hold();
    },
    release: () => ear?.release(),
    hush: () => voice?.hush(),
    restart,
    setSpeech: (settings) => {
      voice?.set(settings);
      showSpeech();
      void voice?.say([], 'stored');
    },
    wipe,
    dismiss: (id) => store.setState((state) => ({ notices: state.notices.filter((each) => each.id !== id) })),
  }));

  const listening = (change: Partial<AssistantState['listening']>): void =>
    store.setState((state) => ({ listening: { ...state.listening, ...change } }));

  const { notify, notifyAtOnce, settle } = noticesOf(store);

  const shelfTrouble = (fault: ShelfFault): void =>
    notifyAtOnce({ id: 'shelf', part: 'shelf', text: describeShelfFault(fault), remedy: null });

  async function refreshJobs(): Promise<void> {
    const jobs = await deps.shelf.jobs();
    store.setState({ drafts: await draftsOn(deps.shelf) });
    if (jobs.ok) store.setState({ jobs: jobs.value });
    else shelfTrouble(jobs.error);
  }

  async function openJob(id: string): Promise<void> {
    hold?.release();
    // Held before it is read, so that what is read is all that the last window wrote.
    hold = await deps.holdJob(id, {
      onStanding: () => void taken(id),
      onStored: () => void (job?.id === id && read(id)),
      settled: () => log?.settled() ?? Promise.resolve(),
    });
    const writing = hold.standing() === 'writing';
    if (!(await read(id))) return;
    settle('window');
    await deps.afterPainting();
    store.setState({ page: 'machine', heard: null, reply: null });
    void deps.shelf.keepSetting(LAST_JOB, id);
    void deps.keepStored();
    // What was read while it was held needs no second reading.
    if (writing && hold.standing() === 'writing') await turn((talk) => talk.begin());
    else await taken(id);
  }

  /** Opens a job that the store did not take: all of it is in memory, counted as such, and can be saved as a file. */
  async function openUnstored(held: StoredJob): Promise<void> {
    hold?.release();
    hold = null;
    [job, log] = [held, openLog(deps.shelf, held)];
    conversation = talkOn(held, log);
    show(conversation);
    store.setState({ page: 'machine', heard: null, reply: null });
    await turn((talk) => talk.begin());
  }

  const bareReadings = (): boolean => store.getState().listening.mode !== 'open';
  const talkOn = (of: StoredJob, into: OpenLog): Conversation => new Conversation(of, { ...deps, log: into, bareReadings });

  async function fetched(id: string): Promise<{ readonly job: StoredJob; readonly log: OpenLog } | null> {
    const opened = await deps.shelf.open(id);
    if (opened.ok) return { job: opened.value, log: openLog(deps.shelf, opened.value) };
    shelfTrouble(opened.error);
    return null;
  }

  const isOpen = (talk: Conversation): boolean => talk === conversation;

  /** Reads the job from the shelf and shows it; one that is being talked through is read between two turns. */
  async function read(id: string): Promise<boolean> {
    const talk = job?.id === id ? conversation : null;
    if (talk === null) {
      const first = await fetched(id);
      if (first === null) return false;
      ({ job, log } = first);
      conversation = talkOn(job, log);
    } else {
      const again = await talk.reread(async () => {
        const found = await fetched(id);
        if (found !== null && isOpen(talk)) ({ job, log } = found);
        return found;
      });
      if (!again || !isOpen(talk)) return false;
    }
    settle('shelf');
    job?.damage.forEach((damage, at) =>
      notify({ id: `damage-${at}`, part: 'shelf', text: describeDamage(damage), remedy: null }),
    );
    if (conversation !== null) show(conversation);
    return true;
  }

  /** The job is this window's to write to, or another's: then this one shows what the other writes, and says so. */
  async function taken(id: string): Promise<void> {
    if (hold?.standing() === 'writing') {
      if (await read(id)) settle('window');
      await turn((talk) => talk.begin());
      return;
    }
    const remedy = { label: 'Go on here', run: () => void hold?.takeOver() };
    notify({ id: 'window', part: 'shelf', text: 'This job is being written in another window; this one only shows it.', remedy });
  }

  const show = (talk: Conversation): void =>
    store.setState({
      job: job === null ? null : { id: job.id, state: talk.state, talk: talk.talk },
      unstored: talk.unstored.length,
    });

  /** Takes one turn of the conversation, shows it, does its effect, and speaks its answer. */
  async function turn(take: (talk: Conversation) => Promise<Turn>, heardAt: HearingTimes | null = null): Promise<void> {
    // A press is seen before its answer is worked out; who has spoken waits for the answer alone.
    if (heardAt === null) await deps.drawn();
    const talk = conversation;
    if (talk === null || hold?.standing() === 'showing') return;
    const done = await take(talk);
    if (talk !== conversation) return;
    if (done.events.length > 0) hold?.announce(nextSeq(talk.state) - 1);
    show(talk);
    if (done.heard !== '' || done.source !== 'button')
      store.setState({
        heard: { words: done.heard, from: done.source, outcome: done.intent === null ? 'not-understood' : done.outcome },
      });
    store.setState({ reply: { text: textOfReply(done.reply), reply: done.reply, outcome: done.outcome } });
    if (done.fault !== null) shelfTrouble(done.fault);
    else if (done.events.length > 0) settle('shelf');
    // Seen, then said, then listened for, each in a task of its own: a hand may press again meanwhile.
    if (heardAt === null) await deps.drawn();
    if (done.effect !== null) await act(done.effect);
    const said = done.effect === 'hush' ? null : speak(done, heardAt);
    await deps.drawn();
    ear?.listenFor(talk.context);
    await said;
  }

  function showSpeech(): void {
    if (voice !== null) store.setState({ volume: voice.volume, speech: voice.settings });
  }

  async function speak(taken: Turn, heardAt: HearingTimes | null): Promise<void> {
    await voiceOpening;
    if (voice === null) return;
    const asked = deps.tick();
    const spoken = await voice.say(speakReply(asSpoken(taken, voice.settings)), taken.reply.tone);
    if (heardAt === null || spoken.firstSampleAt === null) return;
    deps.mark('answer', heardAt.endOfSpeechAt, spoken.firstSampleAt, {
      heard: taken.heard,
      endpointMs: heardAt.endpointMs,
      recogniserMs: heardAt.recogniserMs,
      ...taken.times,
      voiceMs: spoken.firstSampleAt - asked,
    });
  }

  async function act(effect: Effect): Promise<void> {
    switch (effect) {
      case 'wake':
        return;
      case 'stop-listening':
        store.getState().stopListening();
        return;
      case 'louder':
        voice?.louder();
        showSpeech();
        return;
      case 'quieter':
        voice?.quieter();
        showSpeech();
        return;
      case 'slower':
        voice?.slower();
        showSpeech();
        return;
      case 'hush':
        voice?.hush();
        return;
      case 'show-phrases':
        store.setState({ page: 'phrases' });
        return;
      case 'record-memo':
        await keepMemo(deps, {
          job: job?.id ?? null,
          operation: conversation?.state.open ?? null,
          ear,
          // In a turn of its own, behind the one that asked for it.
          record: (memo) => void turn((talk) => talk.record(memo, 'memo-kept')),
          trouble: shelfTrouble,
        });
    }
  }

  async function typed(text: string): Promise<void> {
    if (text.trim() !== '') await turn((talk) => talk.type(text));
  }

  /** One after another, so that a second press while the ear opens opens no second one. */
  function listen(mode: ListeningMode): Promise<void> {
    listening({ mode, state: 'starting', called: false });
    void deps.shelf.keepSetting(LISTENING, mode);
    return (earStarting = earStarting.then(() => startEar(mode)));
  }

  async function startEar(mode: ListeningMode): Promise<void> {
    await openVoice();
    void voice?.unlock();
    try {
      ear ??= listenedTo(await deps.openEar(), {
        listening: () => store.getState().listening,
        show: listening,
        pleaseRepeat: () => void voice?.say([], 'please-repeat'),
        turn: (take, heardAt) => void turn(take, heardAt),
        broken: (message) => broken('ear', message),
      });
      showHearing(ear);
      if (conversation !== null) ear.listenFor(conversation.context);
      await ear.start(mode);
      settle('ear');
      listening({ state: 'waiting' });
    } catch (error) {
      broken('ear', error instanceof Error ? error.message : String(error));
    }
  }

  function showHearing(of: Ear): void {
    listening({ callName: of.callName });
    store.setState({ hearing: hearingOf(of, () => showHearing(of)) });
  }

  function broken(part: 'ear' | 'voice', text: string): void {
    if (part === 'ear') listening({ state: 'broken', levelDb: null });
    const label = part === 'ear' ? 'Start the ear again' : 'Start the voice again';
    notify({ id: part, part, text, remedy: { label, run: () => void restart(part) } });
  }

  function openVoice(): Promise<void> {
    voiceOpening ??= deps.openVoice().then(
      (opened) => {
        voice = opened;
        showSpeech();
        if (opened.trouble !== null) broken('voice', opened.trouble);
        opened.onSpeaking((speaking) => {
          ear?.deaf(speaking);
          const { state } = store.getState().listening;
          if (speaking && state === 'waiting') listening({ state: 'speaking' });
          if (!speaking && state === 'speaking') listening({ state: 'waiting' });
        });
      },
      (error: unknown) => broken('voice', `The voice did not start: ${error instanceof Error ? error.message : String(error)}`),
    );
    return voiceOpening;
  }

  async function restart(part: 'ear' | 'voice'): Promise<void> {
    settle(part);
    if (part === 'voice') {
      voice = null;
      voiceOpening = null;
      await openVoice();
      return;
    }
    ear?.close();
    ear = null;
    await listen(store.getState().listening.mode);
  }

  /** Empties the shelf and goes back to an empty list. */
  async function wipe(): Promise<void> {
    hold?.release();
    const wiped = await deps.shelf.wipe();
    if (!wiped.ok) {
      shelfTrouble(wiped.error);
      return;
    }
    job = null;
    log = null;
    hold = null;
    conversation = null;
    store.setState({ job: null, heard: null, reply: null, unstored: 0, notices: [], draft: null, page: 'jobs' });
    await refreshJobs();
  }

  async function begin(): Promise<void> {
    void openVoice();
    const mode = await deps.shelf.setting(LISTENING);
    const known = modeSchema.safeParse(mode.ok ? mode.value : null);
    if (known.success) listening({ mode: known.data });
    await refreshJobs();
    const last = await deps.shelf.setting(LAST_JOB);
    const id = last.ok && typeof last.value === 'string' ? last.value : null;
    const { jobs } = store.getState();
    // A device that has never held a job opens on the demo: there is something to try at once.
    if (id !== null && jobs.some((each) => each.id === id)) await openJob(id);
    else if (jobs.length === 0) await store.getState().startDemo('inch');
    if (job === null) store.setState({ page: 'jobs' });
  }

  void begin();
  return store;
}
