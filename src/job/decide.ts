import { zero, type Length } from '../measure/index.ts';
import { answer } from './answers.ts';
import { done, refused, replyOf, type Decision, type Effect, type Scene } from './decision.ts';
import type { Heard, Intent, LengthIntent } from './intent.ts';
import { goBack, goTo, leave } from './moving.ts';
import { takeReading } from './readings.ts';
import { sentence, type PhraseId } from './reply.ts';
import { askWhetherHeard, askWhich, correct, forget, sayNo, sayYes, scratch } from './righting.ts';
import { indicatorRead, jawRead } from './dialling.ts';
import { edgeFound } from './edging.ts';
import { nextHole } from './holes.ts';
import { packingAnswer } from './packing.ts';
import { setUpAnswer, setUpCounted, setUpGiven } from './settingUp.ts';
import { spotRead } from './spotting.ts';
import { taperAnswer } from './tapering.ts';
import { whyAnswer } from './why.ts';
import { openOperation } from './window.ts';
import {
  dialZeroed,
  felt,
  hasFiled,
  nowWorking,
  setDial,
  temperatureNoted,
  tookCut,
  touchedOff,
} from './setting.ts';

/**
 * Does with a heard length what its kind asks for: one is taken, two are asked about, none is refused with its reason. One that
 * was
 * hardly heard is said back with a yes? before anything is stored by it.
 */
function withLength(scene: Scene, intent: LengthIntent, heard: Heard<Length>, take: (value: Length) => Decision): Decision {
  switch (heard.as) {
    case 'one': {
      const decision = take(heard.value);
      return scene.unsure === true && decision.events.length > 0 ? askWhetherHeard(scene, intent, heard.value) : decision;
    }
    case 'either':
      return askWhich(scene, intent, heard.values);
    case 'none':
      return refused(scene, heard.reason);
  }
}

const effect = (scene: Scene, phrase: PhraseId | null, effect_: Effect): Decision =>
  done([], replyOf(scene, null, ...(phrase === null ? [] : [sentence(phrase)])), effect_);

/**
 * Decides what an intent comes to where the job stands: events to store and an answer to give, a question, or a refusal. Pure;
 * never throws on anything a person can say. The clock comes in with the scene; ids are given when the events are stored.
 */
export function decide(scene: Scene, intent: Intent): Decision {
  switch (intent.type) {
    case 'next':
      return leave(scene, 'finish', false);
    case 'skip':
      return leave(scene, 'skip', false);
    case 'back':
      return goBack(scene);
    case 'go-to':
      // A step number is said whole; two readings of it would be two steps, so it is asked for again.
      return intent.step.as === 'one'
        ? goTo(scene, intent.step.value)
        : refused(scene, intent.step.as === 'none' ? intent.step.reason : 'no-number');
    case 'where-am-i':
    case 'whats-next':
    case 'repeat':
    case 'ask-target':
    case 'ask-left':
    case 'ask-passes':
    case 'ask-dial':
    case 'ask-stop':
    case 'ask-speed':
    case 'ask-feed':
    case 'ask-last':
    case 'ask-taken':
    case 'ask-bore':
    case 'ask-fit':
    case 'ask-time':
    case 'ask-caution':
    case 'read-log':
      return answer(scene, intent.type);
    case 'reading':
      // What an indicator shows while the high spot is looked for is no size of the part.
      return withLength(scene, intent, intent.value, (value) =>
        openOperation(scene.state)?.kind === 'find-high-spot' && intent.thing === null
          ? spotRead(scene, value)
          : takeReading(scene, intent, value, false, null),
      );
    case 'temperature':
      if (intent.value.as === 'one') return temperatureNoted(scene, intent.value.value);
      return refused(scene, intent.value.as === 'none' ? intent.value.reason : 'no-number');
    case 'took':
      return withLength(scene, intent, intent.value, (value) => tookCut(scene, value));
    case 'dial':
      return withLength(scene, intent, intent.value, (value) => setDial(scene, value));
    case 'touched-off':
      return touchedOff(scene);
    case 'dial-zeroed':
      // Set to zero at a place of the high spot, the indicator reads zero there.
      if (openOperation(scene.state)?.kind === 'find-high-spot') return spotRead(scene, zero);
      return dialZeroed(scene);
    case 'feel':
      return felt(scene, intent.feel);
    case 'working':
      return nowWorking(scene, intent.working);
    case 'filed':
      if (intent.value.as === 'one') return hasFiled(scene, intent.in, intent.value.value);
      return refused(scene, intent.value.as === 'none' ? intent.value.reason : 'no-number');
    case 'jaw':
      return withLength(scene, intent, intent.value, (value) => jawRead(scene, intent.jaw, value));
    case 'indicator':
      return withLength(scene, intent, intent.value, (value) => indicatorRead(scene, intent, value));
    case 'edge':
      return withLength(scene, intent, intent.value, (value) => edgeFound(scene, intent.edge, value));
    case 'spot':
      return withLength(scene, intent, intent.value, (value) => spotRead(scene, value));
    case 'set-up-count':
      if (intent.value.as === 'one') return setUpCounted(scene, intent.what, intent.value.value);
      return refused(scene, intent.value.as === 'none' ? intent.value.reason : 'no-number');
    case 'set-up-length':
      return withLength(scene, intent, intent.value, (value) => setUpGiven(scene, intent.what, value));
    case 'next-hole':
      return nextHole(scene);
    case 'ask-set-up':
      return setUpAnswer(scene);
    case 'ask-why':
      return whyAnswer(scene);
    case 'ask-packing':
      return packingAnswer(scene);
    case 'ask-taper':
      return taperAnswer(scene);
    case 'scratch':
      return scratch(scene);
    case 'correct':
      return withLength(scene, intent, intent.value, (value) => correct(scene, value, decide));
    case 'yes':
      return sayYes(scene, decide);
    case 'no':
      return sayNo(scene);
    case 'cancel':
      return scene.talk.question === null ? refused(scene, 'nothing-was-asked') : forget(scene);
    case 'wake':
      return effect(scene, 'listening', 'wake');
    case 'stop-listening':
      return effect(scene, 'not-listening', 'stop-listening');
    case 'louder':
      return effect(scene, 'louder', 'louder');
    case 'quieter':
      return effect(scene, 'quieter', 'quieter');
    case 'slower':
      return effect(scene, 'slower', 'slower');
    case 'hush':
      return effect(scene, null, 'hush');
    case 'what-can-i-say':
      return effect(scene, 'on-the-screen', 'show-phrases');
    case 'memo':
      return effect(scene, null, 'record-memo');
  }
}
