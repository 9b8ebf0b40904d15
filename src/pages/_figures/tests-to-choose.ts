import type { Site } from '../../accounts/index.ts';
import type { PassMark, TestSitting } from '../../assessment/index.ts';
import { blueprintSittings, passMarkInForce, taskSittings } from '../../attempts/index.ts';
import { loadBlueprints, loadTasks } from '../../store/content-files.ts';

/** A test or a bench task there are figures about. */
export type TestToChoose = {
  readonly id: string;
  readonly title: string;
  readonly isBlueprint: boolean;
  readonly pass: () => Promise<PassMark>;
  readonly sittings: () => Promise<readonly TestSitting[]>;
};

/** Tests before tasks, each in the order of its files. */
export function testsToChoose(site: Site, org: string): TestToChoose[] {
  const blueprints = [...loadBlueprints(site.contentDir).values()].map((blueprint) => ({
    id: blueprint.id,
    title: blueprint.title,
    isBlueprint: true,
    pass: () => passMarkInForce(site, org, blueprint),
    sittings: () => blueprintSittings(site, org, blueprint),
  }));
  const tasks = [...loadTasks(site.contentDir).values()].map(({ id, title }) => ({
    id,
    title,
    isBlueprint: false,
    // a bench task is practice: it has no pass mark
    pass: async (): Promise<PassMark> => 'not-set-yet',
    sittings: () => taskSittings(site, org, id),
  }));
  return [...blueprints, ...tasks];
}
