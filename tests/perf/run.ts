import { NO_LIMITS } from '../access/site.ts';
import { runAuditPerf } from './audit.perf.ts';
import { runEnginePerf } from './engine.perf.ts';
import { runLoadPerf } from './load.perf.ts';
import { runScenePerf } from './scene.perf.ts';

// what is measured here is the site, not what it lets one person do
Object.assign(process.env, NO_LIMITS);

/** `npm run perf`: figures of one run on this machine. Ratios carry over; rates do not. */
const say = (line: string): void => console.log(line);
const [, , only, part] = process.argv;
if (only === undefined || only === 'engine') runEnginePerf(say);
if (only === undefined || only === 'audit') await runAuditPerf(say);
if (only === undefined || only === 'scene') await runScenePerf(say);
if (only === undefined || only === 'load') await runLoadPerf(say, part);
