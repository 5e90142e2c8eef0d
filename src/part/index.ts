export { acrossField, degreesField, diameterField, idField, lengthField, lineField, sentenceField, sizeField } from './fields.ts';
export { DATUMS, type Datum, type DatumLength } from './datum.ts';
export { givenLengths, ownLengths, spanOf, type ChainFault, type GivenLength, type Linked } from './chain.ts';
export { saidName } from './saidName.ts';
export { limitsSchema, type Limits } from './limits.ts';
export { chuckSchema, dialSchema, machineSchema, TOOL_KINDS, type Chuck, type Machine, type ToolKind } from './machine.ts';
export { ownInstrumentSchema, ownInstrumentsSchema } from './ownInstruments.ts';
export { mateReadingSchema, mateSchema, type Mate, type MateReading } from './mate.ts';
export { CONDITIONS, stockSchema, type Stock } from './stock.ts';
export { edgeFeatureSchema, fitField, turnedFeatureSchema, type EdgeFeature, type TurnedFeature } from './turned.ts';
export { endFeatureSchema, type EndFeature } from './endFeature.ts';
export { milledFeatureSchema, type MilledFeature } from './milled.ts';
export { partSchema, type Part } from './part.ts';
export { fitLimits, goesIn, mateSize, measuredRing, ringOf, uncertaintyOf, type FitFault } from './fitted.ts';
export { describeFileProblem, firstProblem, placeName, readBy, type FileProblem } from './problem.ts';
export { partFileSchema, readPartFile, readPartFileBy, type PartFile } from './partFile.ts';
export { PART_STEPS, PART_VERSION, type PartStep } from './steps.ts';
export { DRAFT_GROUPS, draftSchema, type Draft, type DraftGroup, type DraftInstrument, type DraftRow } from './draft/draft.ts';
export { ABOUT_FIELDS, DRAFT_KINDS, draftKind, kindsOf, type DraftField, type DraftKind, type FieldType } from './draft/kinds.ts';
export { editDraft, nextRowId, type DraftEdit } from './draft/editDraft.ts';
export {
  readDraft,
  type DraftPlace,
  type DraftProblem,
  type DraftReading,
  type FieldReading,
  type SketchFeature,
} from './draft/readDraft.ts';
export { draftOfPart, newDraft } from './draft/draftOfPart.ts';
export { typedSize } from './draft/typedSize.ts';
export {
  describeLimitsFault,
  readWrittenLimits,
  type KnownMate,
  type LimitsFault,
  type WrittenLimits,
} from './draft/writtenLimits.ts';
export { fitChoices, type FitChoice } from './draft/fitChoices.ts';
