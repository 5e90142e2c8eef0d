import { useEffect, useRef } from 'react';
import type { DisplayUnit } from '../../measure/index.ts';
import type { Glance, Question } from '../../job/index.ts';
import { bareSize, unitSign } from '../show.ts';
import { words } from '../words.ts';
import { BigButton } from './BigButton.tsx';
import { Reminder } from './Reminder.tsx';

export type Answer = 'yes' | 'no' | 'first' | 'second' | 'cancel';

type Half = { readonly label: string; readonly below: string; readonly answer: Answer };
type Asked = {
  readonly reason: string;
  readonly asks: string;
  readonly halves: readonly [Half, Half];
  readonly neither: boolean;
};

/** A question in words, with its two answers. */
export function asked(question: Question, unit: DisplayUnit): Asked {
  const q = words.question;
  switch (question.about) {
    case 'which-value': {
      const [first, second] = question.values;
      // The first was turned down already: only the second is left to say yes or no to.
      if (question.other === null)
        return {
          reason: q.thisOne,
          asks: `${bareSize(second, unit)} ${unitSign(unit)}`,
          halves: [
            { label: q.yes, below: q.yesKeep, answer: 'yes' },
            { label: q.no, below: q.noKeep, answer: 'no' },
          ],
          neither: false,
        };
      return {
        reason: q.which,
        asks: '',
        halves: [
          { label: bareSize(first, unit), below: unitSign(unit), answer: 'first' },
          { label: bareSize(second, unit), below: unitSign(unit), answer: 'second' },
        ],
        neither: true,
      };
    }
    case 'sure':
      return {
        reason: q.doubt[question.doubt],
        asks: `${bareSize(question.value, unit)} ${unitSign(unit)}. ${q.keep}`,
        halves: [
          { label: q.yes, below: q.yesKeep, answer: 'yes' },
          { label: q.no, below: q.noKeep, answer: 'no' },
        ],
        neither: false,
      };
    case 'leave':
      return {
        reason: q.leave[question.why],
        asks: q.goOn,
        halves: [
          { label: q.yes, below: q.yesGo, answer: 'yes' },
          { label: q.no, below: q.noGo, answer: 'no' },
        ],
        neither: false,
      };
  }
}

type Props = {
  readonly question: Question;
  readonly unit: DisplayUnit;
  readonly glance: Glance | null;
  readonly onAnswer: (answer: Answer) => void;
};

/** A question over the machine page: why it is asked above, its two answers as two halves of the screen. */
export function QuestionHalves({ question, unit, glance, onAnswer }: Props) {
  const self = useRef<HTMLDivElement>(null);
  useEffect(() => self.current?.focus(), [question]);
  const { reason, asks, halves, neither } = asked(question, unit);
  return (
    <div
      className="question"
      role="alertdialog"
      aria-modal="true"
      aria-labelledby="question-reason"
      aria-describedby="question-asks"
      tabIndex={-1}
      ref={self}
    >
      <div className="question-words">
        <h2 id="question-reason">{reason}</h2>
        <p id="question-asks" className="question-asks">
          {asks}
        </p>
        <Reminder unit={unit} glance={glance} />
      </div>
      <div className="halves">
        {halves.map((half) => (
          <BigButton key={half.answer} label={half.label} below={half.below} kind="main" onPress={() => onAnswer(half.answer)} />
        ))}
      </div>
      {neither && <BigButton label={words.question.neither} onPress={() => onAnswer('cancel')} />}
    </div>
  );
}
