import type { FormTask } from './graded.ts';

type Plan = Extract<FormTask, { kind: 'plan' }>;

/** A choice of a plan in words, all lengths in mm. */
export function planWords(task: Plan, part: 'stance' | 'stick' | 'end', id: string): string {
  switch (part) {
    case 'stance': {
      const one = task.stances.find((stance) => stance.id === id);
      if (one === undefined) return id;
      const aside =
        one.z === 0
          ? 'in line with it'
          : `${Math.abs(one.z)} mm to the ${one.z > 0 ? 'right, on the side of the fence' : 'left, away from the fence'}`;
      return `${Math.abs(one.x)} mm before the middle of the blade, ${aside}`;
    }
    case 'stick': {
      const one = task.sticks.find((stick) => stick.id === id);
      if (one === undefined) return id;
      return one.length === 0
        ? 'the bare hand, to the end of the cut'
        : `a push stick ${one.length} mm long, for the last ${one.usedForLast} mm`;
    }
    case 'end': {
      const one = task.ends.find((end) => end.id === id);
      if (one === undefined) return id;
      if (one.by === 'nobody') return 'nobody';
      return one.by === 'extension'
        ? `a table extension to ${one.at} mm behind the middle of the blade`
        : `somebody who takes off, ${one.at} mm behind the middle of the blade`;
    }
  }
}
