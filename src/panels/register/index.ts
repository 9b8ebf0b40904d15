export { openIntoField } from './open-into-field.ts';
export { sendOwnClock } from './own-clock.ts';
export { printOnAsking } from './print-on-asking.ts';
