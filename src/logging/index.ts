export { describeError, type ErrorNote } from './describe-error.ts';
export * from './log.ts';
export { ofProcess } from './of-process.ts';
export {
  duringRequest,
  makeRequestId,
  noteRoute,
  type RunningRequest,
  runningRequest,
} from './running-request.ts';
export * from './security-events.ts';
export { takeConsole } from './take-console.ts';
export { asJson, asText, FILE_ROUTE } from './write-line.ts';
