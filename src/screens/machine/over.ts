/** What lies over the machine page while a number or an answer is wanted, fetched beside it. */
export { NumberPad } from './NumberPad.tsx';
export { QuestionHalves } from './QuestionHalves.tsx';
