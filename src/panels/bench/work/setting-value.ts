import type { Bench, SettingId } from '../../../bench/index.ts';

/** What the scale beside a setting shows, mm; null when its part is off the bench. */
export function settingValue(bench: Bench, setting: SettingId): number | null {
  switch (setting) {
    case 'knife.along':
      return bench.knife?.along ?? null;
    case 'knife.up':
      return bench.knife?.up ?? null;
    case 'guard.height':
      return bench.guard?.height ?? null;
    case 'guard.front':
      return bench.guard?.front ?? null;
    case 'fence.end':
      return bench.fence.end;
    case 'fence.face':
      return bench.fence.face;
    case 'arbor.depth':
      return bench.arbor.depth;
  }
}
