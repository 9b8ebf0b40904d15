import { type ExamContent, type ExamRules, examRules } from '../../src/assessment/index.ts';
import { loadExamContent } from '../../src/store/content-files.ts';
import { SETS } from './rules.ts';

/** All content a test is made from, as it stands in the tree; an organisation's own sets left out. */
export const EXAM_CONTENT: ExamContent = { ...loadExamContent(), sets: SETS };

export const BLUEPRINT_IDS = [...EXAM_CONTENT.blueprints.keys()];

/** The rules of one blueprint, with some of its fields changed. */
export function rulesFor(id: string, changes: Partial<ExamRules['blueprint']> = {}): ExamRules {
  const blueprint = EXAM_CONTENT.blueprints.get(id);
  if (blueprint === undefined) throw new Error(`no blueprint ${id}`);
  return examRules({ ...blueprint, ...changes }, EXAM_CONTENT);
}
