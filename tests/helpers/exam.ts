import { type ExamContent, type ExamRules, examRules } from '../../src/assessment/index.ts';
import {
  loadBenches,
  loadBlueprints,
  loadEstimates,
  loadRacks,
  loadSituations,
} from '../../src/store/content-files.ts';
import { CATALOGUE, SETS } from './rules.ts';

const estimate = loadEstimates().get('trained');
if (estimate === undefined) throw new Error('no estimates');

/** All content a test is made from, as it stands in the tree. */
export const EXAM_CONTENT: ExamContent = {
  blueprints: loadBlueprints(),
  sets: SETS,
  catalogue: CATALOGUE,
  estimate,
  benches: loadBenches(),
  racks: loadRacks(),
  situations: loadSituations(),
};

export const BLUEPRINT_IDS = [...EXAM_CONTENT.blueprints.keys()];

/** The rules of one blueprint, with some of its fields changed. */
export function rulesFor(id: string, changes: Partial<ExamRules['blueprint']> = {}): ExamRules {
  const blueprint = EXAM_CONTENT.blueprints.get(id);
  if (blueprint === undefined) throw new Error(`no blueprint ${id}`);
  return examRules({ ...blueprint, ...changes }, EXAM_CONTENT);
}
