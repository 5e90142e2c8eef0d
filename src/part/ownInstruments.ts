import { z } from 'zod';
import { ownFigureFault, type OwnFigure, type OwnFigureFault } from '../measure/index.ts';
import { lengthField } from './fields.ts';
import { readingInstrumentField } from './mate.ts';

/** What is wrong with a figure of an own instrument, in one line. */
export function describeOwnFigureFault(fault: OwnFigureFault): string {
  switch (fault) {
    case 'step-of-nothing':
      return 'a step is more than nothing';
    case 'less-than-nothing':
      return 'an error is nothing or more';
    case 'coarser-than-a-rule':
      return 'coarser than any rule is read: 0.5mm, .0197 in at most';
  }
}

const figureField = (figure: OwnFigure) =>
  lengthField
    .superRefine((value, context) => {
      const fault = ownFigureFault(figure, value);
      if (fault !== null) context.addIssue({ code: 'custom', message: describeOwnFigureFault(fault) });
    })
    .nullable()
    .default(null);

/** An instrument of the shop's own: the step it is read to, and the most that it may be off by; null is as the standard says. */
export const ownInstrumentSchema = z.strictObject({
  kind: readingInstrumentField,
  resolution: figureField('resolution'),
  permissibleError: figureField('permissibleError'),
});

/** The instruments of a shop that are not as the standard says, one a kind. */
export const ownInstrumentsSchema = z.array(ownInstrumentSchema).superRefine((own, context) => {
  own.forEach(({ kind }, at) => {
    if (own.findIndex((each) => each.kind === kind) < at)
      context.addIssue({ code: 'custom', path: [at, 'kind'], message: `the ${kind} stands here twice` });
  });
});
