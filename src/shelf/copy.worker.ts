import { browserCopyFolder, copyFailure } from './browserCopyFolder.ts';
import type { CopyQuestion, FromCopy, ToCopy } from './copy-messages.ts';
import { copyFiles } from './copyFiles.ts';

/** The worker's own scope; the page's library of types stands beside it and names it otherwise. */
const scope = self as unknown as {
  readonly name: string;
  onmessage: ((event: MessageEvent<ToCopy>) => void) | null;
  postMessage(message: FromCopy): void;
};

/** The worker is named after the folder of the copies. */
const folder = scope.name;
const windows = new BroadcastChannel(folder);
const copy = copyFiles(
  browserCopyFolder(folder, (job) => windows.postMessage(job)),
  () => scope.postMessage({ busy: true }),
);
windows.onmessage = ({ data }: MessageEvent<string | null>) => void copy.letGo(data);

function answer(question: CopyQuestion): Promise<unknown> {
  switch (question.ask) {
    case 'jobs':
      return copy.jobs();
    case 'end':
      return copy.end(question.job);
    case 'read':
      return copy.read(question.job);
    case 'append':
      return copy.append(question.job, question.events, question.before);
    case 'complete':
      return copy.complete(question.job, question.events);
    case 'keepClip':
      return copy.keepClip(question.job, question.clip, question.wav);
    case 'wipe':
      return copy.wipe();
  }
}

scope.onmessage = ({ data: { no, question } }) => {
  answer(question).then(
    (value) => scope.postMessage({ no, ok: true, value }),
    (error: unknown) => {
      const { reason, message } = copyFailure(error);
      scope.postMessage({ no, ok: false, reason, detail: message });
    },
  );
};
