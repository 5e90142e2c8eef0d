import { describeFieldProblem, type FieldProblem } from './fieldProblem.ts';
import { writePath, type Path } from './json.ts';

type Place = { readonly line: number; readonly column: number; readonly path: Path };

/** Why a file was not taken in, as data; the sentence is made by `describeFileFault`. */
export type FileFault =
  | ({ readonly key: 'not-json'; readonly expected: string; readonly got: string } & Place)
  | ({ readonly key: 'too-deep'; readonly most: number } & Place)
  | ({ readonly key: 'number-too-large'; readonly got: string } & Place)
  | { readonly key: 'too-large'; readonly length: number; readonly most: number }
  | { readonly key: 'not-a-job-file'; readonly format: string | null }
  | { readonly key: 'newer-version'; readonly version: number; readonly newest: number }
  | { readonly key: 'invalid'; readonly path: Path; readonly near: string | null; readonly problem: FieldProblem }
  | { readonly key: 'broken-sequence'; readonly path: Path; readonly expected: number; readonly got: number };

/**
 * Text from a file made fit to stand in one line of a message: no line breaks, control or direction characters (they could
 * hide or recolour the rest of a terminal's line), and not too long.
 */
export function oneLine(text: string, most: number): string {
  const plain = text.replace(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}\p{Cs}]+/gu, ' ').trim();
  return plain.length <= most ? plain : `${plain.slice(0, most - 1).replace(/[\uD800-\uDBFF]$/, '')}…`;
}

/** A path short enough that what is wrong and what to do still stand in the line behind it: names may be of any length. */
const shortPath = (path: Path): string => oneLine(writePath(path), 160);
const at = ({ line, column, path }: Place): string => `line ${line}, column ${column}${path.length === 0 ? '' : ` (${shortPath(path)})`}`;
const mebibytes = (length: number): string => `${Math.ceil(length / (1024 * 1024))} million characters`;

function sentence(fault: FileFault): string {
  switch (fault.key) {
    case 'not-json':
      return `${at(fault)}: ${fault.expected} expected, ${fault.got} found; the file is damaged or cut short. Fetch it or export it again`;
    case 'too-deep':
      return `${at(fault)}: nested deeper than ${fault.most} levels, which no job file is. Nothing was read; export the job again`;
    case 'number-too-large':
      return `${at(fault)}: the number ${fault.got} is too large. Correct it in a text editor, or export the job again`;
    case 'too-large':
      return `the whole file: ${mebibytes(fault.length)}, and at most ${mebibytes(fault.most)} are read. Export the job without its sound clips`;
    case 'not-a-job-file':
      return `format: ${fault.format === null ? 'missing' : `"${fault.format}"`}, where a job file has "swarfside-job". Choose a file that was exported as a job`;
    case 'newer-version':
      return `version: ${fault.version}, written by a newer Swarfside; this one reads up to ${fault.newest}. Update this device, then open the file again`;
    case 'invalid': {
      const near = fault.near === null ? '' : ` ("${oneLine(fault.near, 60)}")`;
      return `${shortPath(fault.path)}${near} ${oneLine(describeFieldProblem(fault.problem), 380)}. Correct it in a text editor, or export the job again`;
    }
    case 'broken-sequence':
      return `${shortPath(fault.path)}: event ${fault.expected} expected, ${fault.got} found: an event is missing, doubled or moved. Export the job again`;
  }
}

/** One line that says what is wrong with the file, where, and what to do. */
export const describeFileFault = (fault: FileFault, fileName: string): string => `${oneLine(fileName, 120)}: ${oneLine(sentence(fault), 600)}.`;
