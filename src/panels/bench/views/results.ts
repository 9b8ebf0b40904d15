/** All that shows a verdict or a result: fetched when the server has given the first one. */
export { OutcomePaper } from './outcome-paper.tsx';
export { VerdictSection } from './verdict-section.tsx';
