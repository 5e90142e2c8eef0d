import { formatSize, type DisplayUnit } from '../measure/index.ts';
import type { Warning } from './checks.ts';

/** A warning as a sentence, with the values, in the unit of the part. */
export function describeWarning(warning: Warning, unit: DisplayUnit): string {
  switch (warning.key) {
    case 'stock-too-thin':
      return `feature ${warning.feature} is ${formatSize(warning.needed, unit)} across; the stock is ${formatSize(warning.stock, unit)}`;
    case 'offset-outside-stock':
      return `feature ${warning.feature} needs stock of ${formatSize(warning.needed, unit)} (its diameter and twice the throw); the stock is ${formatSize(warning.stock, unit)}`;
    case 'stock-too-short':
      return `the part is ${formatSize(warning.needed, unit)} long at least; the stock is ${formatSize(warning.stock, unit)}`;
    case 'never-finished':
      return `no operation brings the diameter of feature ${warning.feature} into its window`;
    case 'below-finish':
      return `operation ${warning.operation} may cut feature ${warning.feature} to ${formatSize(warning.low, unit)}, below its finish of ${formatSize(warning.finish, unit)}`;
    case 'nothing-to-take':
      return `operation ${warning.operation} starts at ${formatSize(warning.from, unit)} and aims at ${formatSize(warning.aim, unit)}: nothing to take`;
    case 'from-disagrees':
      return `operation ${warning.operation} starts from ${formatSize(warning.from, unit)}, which operation ${warning.before} does not leave`;
    case 'mate-measured-late':
      return `operation ${warning.operation} is fitted to ${warning.mate}, which is not measured before it`;
    case 'not-a-feature':
      return `operation ${warning.operation} is about "${warning.feature}", which the part does not have`;
    case 'no-instrument':
      return `operation ${warning.operation} has a size to reach and no instrument to measure it`;
    case 'speed-not-on-machine':
      return `operation ${warning.operation} runs at ${warning.rpm} rpm, which ${warning.machine} does not have`;
    case 'feed-not-on-machine':
      return `operation ${warning.operation} feeds ${formatSize(warning.feed, unit)} a turn, which ${warning.machine} does not have`;
    case 'never-worked':
      return `no operation is about ${warning.feature}, which the part asks for`;
    case 'caution-missing':
      return `operation ${warning.operation} gives no caution; "${warning.caution}" is the usual one`;
  }
}
