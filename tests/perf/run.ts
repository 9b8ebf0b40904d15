import { runEnginePerf } from './engine.perf.ts';

/** `npm run perf`: figures of one run on this machine. Ratios carry over; rates do not. */
runEnginePerf((line) => console.log(line));
