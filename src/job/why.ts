import { refused, told, type Decision, type Scene } from './decision.ts';
import { whyOf } from './advising.ts';
import { coachedAt } from './coaching.ts';
import { line, sentence } from './reply.ts';
import { setUpWhy } from './setUpPrompt.ts';
import { openOperation } from './window.ts';

/** The reason for what was told last, in one sentence: of the coach, else of the set-up, else of the plan. Changes nothing. */
export function whyAnswer(scene: Scene): Decision {
  const operation = openOperation(scene.state);
  if (operation === null) return refused(scene, 'all-done');
  const bench = coachedAt(scene.state, operation);
  if (bench !== null && bench.readings > 0) return told(scene, sentence(whyOf(bench)));
  const setUp = setUpWhy(scene.state, operation);
  if (setUp !== null) return told(scene, sentence(setUp));
  const [planned] = operation.why;
  return told(scene, planned === undefined ? sentence('no-reason-here') : sentence(line(planned)));
}
