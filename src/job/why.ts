import { refused, told, type Decision, type Scene } from './decision.ts';
import { line, sentence } from './reply.ts';
import { setUpWhy } from './setUpPrompt.ts';
import { openOperation } from './window.ts';

/** The reason for what was told last, in one sentence: of the set-up, else of the plan. Changes nothing. */
export function whyAnswer(scene: Scene): Decision {
  const operation = openOperation(scene.state);
  if (operation === null) return refused(scene, 'all-done');
  const setUp = setUpWhy(operation);
  if (setUp !== null) return told(scene, sentence(setUp));
  const [planned] = operation.why;
  return told(scene, planned === undefined ? sentence('no-reason-here') : sentence(line(planned)));
}
