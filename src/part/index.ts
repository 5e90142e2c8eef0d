export { acrossField, diameterField, idField, lengthField, lineField, sizeField } from './fields.ts';
export { dialSchema, machineSchema, type Machine } from './machine.ts';
export {
  endFeatureSchema, mateSchema, milledFeatureSchema, partSchema, stockSchema, turnedFeatureSchema,
  type EndFeature, type Mate, type MilledFeature, type Part, type Stock, type TurnedFeature,
} from './part.ts';
export { describeFileProblem, firstProblem, placeName, readBy, type FileProblem } from './problem.ts';
export { partFileSchema, readPartFile, type PartFile } from './partFile.ts';
