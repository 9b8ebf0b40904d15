import type { Site } from '../../accounts/index.ts';
import type { PassMark, TestSitting } from '../../assessment/index.ts';
import { taskSittings } from '../../attempts/index.ts';
import { loadTasks } from '../../store/content-files.ts';

/** A test or a bench task there are figures about. */
export type TestToChoose = {
  readonly id: string;
  readonly title: string;
  readonly isBlueprint: boolean;
  readonly pass: () => Promise<PassMark>;
  readonly sittings: () => Promise<readonly TestSitting[]>;
};

/** Tests before tasks, each in the order of its files. */
export async function testsToChoose(site: Site, org: string): Promise<TestToChoose[]> {
  const tasks = [...loadTasks(site.contentDir).values()].map(({ id, title }) => ({
    id,
    title,
    isBlueprint: false,
    // a bench task is practice: it has no pass mark
    pass: async (): Promise<PassMark> => 'not-set-yet',
    sittings: () => taskSittings(site, org, id),
  }));
  return tasks;
}
