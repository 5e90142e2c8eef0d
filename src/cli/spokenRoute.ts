import { announcement, folded, type Plan } from '../job/index.ts';
import { textOfReply } from '../phrasebook/index.ts';

/**
 * The steps of a route as the assistant says them when it opens one after the other, a line each, with a caution the first time
 * it is due. From the same data as the sheet.
 */
export function spokenRoute(plan: Plan, skipped: readonly string[]): string {
  const state = folded(plan, []);
  const said = plan.route.operations
    .filter(({ id }) => !skipped.includes(id))
    .map((operation) => textOfReply({ tone: null, unit: plan.part.unit, pieces: announcement(state, operation).pieces }));
  return `${said.join('\n')}\n`;
}
