import { runCommand } from './fault.ts';
import { routeText } from './routeText.ts';

/** `npm run route -- PART [--tool TOOL] [--json | --job]`. */
await runCommand(async () => {
  process.stdout.write(await routeText(process.argv.slice(2)));
});
