import { COURSES } from './courses.ts';
import type { Spoiler } from './spoiler.ts';
import { pastLimit, plainly } from './ways.ts';

/** What goes wrong with the rest of the machine: drive, controls, extraction, table. */
export const MACHINE_SPOILERS: readonly Spoiler[] = [
  plainly('drive-uncovered', 'drive', 'sight', () => ({ driveGuard: 'none' })),
  plainly('belt-slack', 'drive', 'hand', (_bench, random) => ({
    driveBelt: random.pick(['slack', 'worn'] as const),
  })),
  plainly('no-isolator', 'isolator', 'sight', () => ({ controls: { isolator: 'none' } })),
  plainly('no-lockable-isolator', 'isolator', 'close', () => ({ controls: { isolator: 'plain' } })),
  plainly('isolator-unmarked', 'isolator', 'marks', () => ({
    controls: { isolatorMarked: false },
  })),
  plainly('isolator-blocked', 'isolator', 'sight', () => ({ controls: { isolatorBlocked: true } })),
  plainly('key-left-in-lock', 'isolator', 'sight', () => ({
    controls: { isolated: true, lockKey: 'in-lock' },
  })),
  plainly('starts-by-itself', 'starter', 'watch', () => ({ controls: { underVoltage: false } })),
  plainly('stop-over-blade', 'stop', 'sight', () => ({ controls: { stopOverBlade: true } })),
  plainly('stop-dead', 'stop', 'watch', () => ({ controls: { stopWorks: false } })),
  plainly('start-open', 'start', 'sight', () => ({ controls: { startShrouded: false } })),
  plainly('extraction-missing', 'extraction', 'sight', () => ({
    extraction: { kind: 'none', running: false },
  })),
  plainly('extraction-off', 'extraction', 'watch', () => ({ extraction: { running: false } })),
  plainly('extraction-hose', 'extraction', 'sight', (_bench, random) => ({
    extraction: { hose: random.pick(['loose', 'split'] as const) },
  })),
  plainly('extraction-full', 'extraction', 'close', () => ({ extraction: { bag: 'full' } })),
  pastLimit('table-short', 'table-end', 'measure', COURSES.tableShort),
  plainly('table-not-level', 'table', 'measure', () => ({ table: { level: false } })),
  plainly('table-unsound', 'table', 'close', () => ({ table: { sound: false } })),
  plainly('offcuts-on-table', 'table-top', 'sight', () => ({ table: { offcuts: true } })),
  plainly('loose-foundation', 'foundation', 'hand', () => ({ place: { foundation: 'loose' } })),
];
