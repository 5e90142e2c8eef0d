/** Bad input to a terminal command: one line for standard error; the command ends with exit code 2 and has touched nothing. */
export class InputFault extends Error {
  constructor(line: string) {
    super(line);
    this.name = 'InputFault';
  }
}

/** Runs a command of the terminal; an `InputFault` becomes its one line and exit code 2, all else is a bug, shown whole. */
export async function runCommand(command: () => Promise<void>): Promise<void> {
  try {
    await command();
  } catch (error) {
    if (!(error instanceof InputFault)) throw error;
    process.stderr.write(`${error.message}\n`);
    process.exitCode = 2;
  }
}
