export { assert, fail, ok, type Result } from './result.ts';
export { roundedQuotient, roundReal, type Rounding } from './rounding.ts';
export {
  asDiameter, asRadius, diameterOf, dividedBy, inches, larger, magnitude, micrometres, midway, millimetres, minus, nanometres,
  negated, NM_PER_INCH, NM_PER_MICROMETRE, NM_PER_MM, NM_PER_SIXTY_FOURTH, NM_PER_TENTH_THOU, NM_PER_THOU, plus, radiusOf,
  roundedTo, scaled, sixtyFourths, smaller, thou, times, toInches, toMillimetres, zero,
  type Diameter, type Length, type Radius,
} from './length.ts';
export { formatAmount, formatFraction, formatInch, formatMillimetre, formatSize, writeLength, type DisplayUnit } from './format.ts';
export { parseLength, type LengthError } from './parse.ts';
export { degrees, degreesAndMinutes, toDegrees, toRadians, type Angle } from './angle.ts';
export { celsius, fahrenheit, referenceTemperature, toCelsius, toFahrenheit, type Temperature } from './temperature.ts';
export { INSTRUMENTS, type Instrument, type InstrumentKind } from './instruments.ts';
export {
  instrumentsOf, ownFigureFault, type Instruments, type OwnFigure, type OwnFigureFault, type OwnInstrument,
} from './ownInstruments.ts';
