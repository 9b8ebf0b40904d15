import { runEnginePerf } from './engine.perf.ts';
import { runScenePerf } from './scene.perf.ts';

/** `npm run perf`: figures of one run on this machine. Ratios carry over; rates do not. */
const say = (line: string): void => console.log(line);
if (process.argv[2] !== 'scene') runEnginePerf(say);
if (process.argv[2] !== 'engine') await runScenePerf(say);
