import { relative, resolve } from 'node:path';
import {
  type Blueprint,
  type Estimate,
  type ExamContent,
  readBlueprint,
  readEstimate,
  readSituation,
  type Situation,
  type Task,
  TaskSchema,
} from '../assessment/index.ts';
import { type Bench, describeProblem, readBench } from '../bench/index.ts';
import {
  type AgeRule,
  type CheckList,
  readAges,
  readCheckList,
  readUnit,
  type Unit,
} from '../competence/index.ts';
import { type Rack, readRack } from '../grading/index.ts';
import { type FaultCatalogue, joinFaults, readFaults } from '../limits/index.ts';
import {
  ContentProblem,
  freeze,
  idAsFile,
  listFiles,
  loadFolder,
  type Read,
  readYaml,
} from './content-yaml.ts';

import { loadLimitSets } from './limit-files.ts';

export { ContentProblem, lineOfField } from './content-yaml.ts';
export { loadLimitSetFile, loadLimitSets, ownLimitProblems } from './limit-files.ts';

/**
 * The one loader of the files a trainer may write: content/limits, faults, benches, tasks, units, ages,
 * blueprints, situations, estimates, checks.
 * Each file is parsed, checked by its schema, frozen and kept; a fault in one names file and line.
 */

const loaded = new Map<string, unknown>();

/** Reads a folder once for the life of the process. */
function once<Value>(dir: string, kind: string, load: (folder: string) => Value): Value {
  const folder = resolve(dir, kind);
  if (!loaded.has(folder)) loaded.set(folder, load(folder));
  return loaded.get(folder) as Value;
}

/** The whole fault catalogue. @throws ContentProblem */
export function loadFaultCatalogue(dir = 'content'): FaultCatalogue {
  return once(dir, 'faults', (folder) => {
    const files = listFiles(folder).map((file) =>
      readYaml(file, (value) => {
        const read = readFaults(value);
        return read.ok ? { ok: true, value: read.entries } : read;
      }),
    );
    try {
      return freeze(joinFaults(files));
    } catch (error) {
      throw new ContentProblem(`${relative(process.cwd(), folder)}: ${(error as Error).message}.`);
    }
  });
}

const readBenchFile = (value: unknown): Read<Bench> => {
  const read = readBench(value);
  return read.ok ? { ok: true, value: read.bench } : read;
};

/** Every bench by the name of its file. @throws ContentProblem */
export function loadBenches(dir = 'content'): ReadonlyMap<string, Bench> {
  return once(dir, 'benches', (folder) =>
    loadFolder(folder, readBenchFile, (_bench, file) => file.name),
  );
}

/** One bench by the name of its file, without reading the others, if there is such a file. @throws ContentProblem */
export function loadBench(name: string, dir = 'content'): Bench | undefined {
  const file = listFiles(resolve(dir, 'benches')).find((one) => one.name === name);
  if (file === undefined) return undefined;
  return once(dir, `benches/${name}`, () => readYaml(file, readBenchFile));
}

/** Every rack of blades and knives by its id. @throws ContentProblem */
export function loadRacks(dir = 'content'): ReadonlyMap<string, Rack> {
  return once(dir, 'racks', (folder) =>
    loadFolder(
      folder,
      (value) => {
        const read = readRack(value);
        return read.ok ? { ok: true, value: read.rack } : read;
      },
      idAsFile,
    ),
  );
}

/** Every bench task by its id. @throws ContentProblem */
export function loadTasks(dir = 'content'): ReadonlyMap<string, Task> {
  return once(dir, 'tasks', (folder) =>
    loadFolder(
      folder,
      (value) => {
        const parsed = TaskSchema.safeParse(value);
        return parsed.success
          ? { ok: true, value: parsed.data }
          : { ok: false, error: describeProblem(parsed.error, 'The task') };
      },
      idAsFile,
    ),
  );
}

/** Every competence unit by its id, in the order of the course. @throws ContentProblem */
export function loadUnits(dir = 'content'): ReadonlyMap<string, Unit> {
  return once(dir, 'units', (folder) =>
    loadFolder(
      folder,
      (value) => {
        const read = readUnit(value);
        return read.ok ? { ok: true, value: read.unit } : read;
      },
      (unit) => unit.id,
    ),
  );
}

/** Every rule on age by its id. @throws ContentProblem */
export function loadAges(dir = 'content'): ReadonlyMap<string, AgeRule> {
  return once(dir, 'ages', (folder) =>
    loadFolder(
      folder,
      (value) => {
        const read = readAges(value);
        return read.ok ? { ok: true, value: read.rule } : read;
      },
      idAsFile,
    ),
  );
}

/** Every list of checks by its id; each check names faults of the catalogue. @throws ContentProblem */
export function loadCheckLists(dir = 'content'): ReadonlyMap<string, CheckList> {
  return once(dir, 'checks', (folder) => {
    const { byId } = loadFaultCatalogue(dir);
    return loadFolder(
      folder,
      (value) => {
        const read = readCheckList(value);
        if (!read.ok) return read;
        for (const [i, { id, faults }] of read.list.checks.entries()) {
          const stray = faults.find((fault) => !byId.has(fault));
          if (stray !== undefined) {
            const message = `faults of ${id} must be in the fault catalogue: there is no ${stray}.`;
            return { ok: false, error: { path: `checks[${i}].faults`, message } };
          }
        }
        return { ok: true, value: read.list };
      },
      idAsFile,
    );
  });
}

/** Every blueprint of a test by its id. @throws ContentProblem */
export function loadBlueprints(dir = 'content'): ReadonlyMap<string, Blueprint> {
  return once(dir, 'blueprints', (folder) =>
    loadFolder(
      folder,
      (value) => {
        const read = readBlueprint(value);
        return read.ok ? { ok: true, value: read.blueprint } : read;
      },
      idAsFile,
    ),
  );
}

/** Every situation to act on by its id. @throws ContentProblem */
export function loadSituations(dir = 'content'): ReadonlyMap<string, Situation> {
  return once(dir, 'situations', (folder) =>
    loadFolder(
      folder,
      (value) => {
        const read = readSituation(value);
        return read.ok ? { ok: true, value: read.situation } : read;
      },
      idAsFile,
    ),
  );
}

/** How hard each thing is thought to be, by the name of the file. @throws ContentProblem */
export function loadEstimates(dir = 'content'): ReadonlyMap<string, Estimate> {
  return once(dir, 'estimates', (folder) =>
    loadFolder(
      folder,
      (value) => {
        const read = readEstimate(value);
        return read.ok ? { ok: true, value: read.estimate } : read;
      },
      (_estimate, file) => file.name,
    ),
  );
}

/** The file of estimates that forms are balanced by. */
const ESTIMATES = 'trained';

/** Everything a form of a test is made from. @throws ContentProblem */
export function loadExamContent(dir = 'content'): ExamContent {
  const estimate = loadEstimates(dir).get(ESTIMATES);
  if (estimate === undefined) {
    throw new ContentProblem(`There is no file ${ESTIMATES} in ${dir}/estimates.`);
  }
  return {
    blueprints: loadBlueprints(dir),
    sets: loadLimitSets(dir),
    catalogue: loadFaultCatalogue(dir),
    estimate,
    benches: loadBenches(dir),
    racks: loadRacks(dir),
    situations: loadSituations(dir),
  };
}
