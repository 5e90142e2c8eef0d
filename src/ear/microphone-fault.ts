/** Why there is no microphone; `describeMicrophoneFault` is the sentence. */
export type MicrophoneFault = 'insecure' | 'refused' | 'none' | 'busy' | 'lost' | 'unknown';

export function describeMicrophoneFault(fault: MicrophoneFault): string {
  switch (fault) {
    case 'insecure':
      return 'The browser gives no microphone to this address. Open the page by https or on this machine itself.';
    case 'refused':
      return 'The microphone is not allowed for this page. Allow it in the browser, beside the address.';
    case 'none':
      return 'No microphone was found. Plug one in and start the ear again.';
    case 'busy':
      return 'Another program holds the microphone. Close it and start the ear again.';
    case 'lost':
      return 'The microphone is gone. Plug it in and start the ear again.';
    case 'unknown':
      return 'The microphone could not be started.';
  }
}

export class MicrophoneError extends Error {
  readonly fault: MicrophoneFault;
  constructor(fault: MicrophoneFault, options?: ErrorOptions) {
    super(describeMicrophoneFault(fault), options);
    this.name = 'MicrophoneError';
    this.fault = fault;
  }
}
