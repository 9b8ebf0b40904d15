import { isMeasureId, MEASURES } from '../bench/index.ts';
import { checkCondition } from './condition-schema.ts';
import { repeatedId } from './fields.ts';
import {
  type LimitEndFile,
  type LimitFile,
  type LimitSetFile,
  LimitSetShape,
} from './limit-schema.ts';
import { BENCH_SCOPE, type Subject } from './subject.ts';

type Report = (path: readonly (string | number)[], message: string) => void;

/** A limit set as written in a file, checked whole: names, units, ends, sources. */
export const LimitSetSchema = LimitSetShape.superRefine((set, context) => {
  const twice = repeatedId(set.limits);
  if (twice !== undefined) {
    context.addIssue({ code: 'custom', path: ['limits'], message: `must not use ${twice} twice` });
  }
  set.limits.forEach((limit, i) => {
    const report: Report = (path, message) => {
      context.addIssue({ code: 'custom', path: ['limits', i, ...path], message });
    };
    if (!limit.id.startsWith(`${set.id}.`)) report(['id'], `must start with ${set.id}.`);
    checkDocument(limit.source.document, set.documents, report);
    checkLimit(limit, report);
  });
  set.changes.forEach((change, i) => {
    checkDocument(change.source.document, set.documents, (path, message) => {
      context.addIssue({ code: 'custom', path: ['changes', i, ...path], message });
    });
  });
  if (set.extends !== undefined) return;
  if (set.changes.length > 0) {
    context.addIssue({ code: 'custom', path: ['changes'], message: 'goes only with: extends' });
  }
  if (set.limits.length === 0) {
    context.addIssue({ code: 'custom', path: ['limits'], message: 'must hold at least one limit' });
  }
});

function checkDocument(name: string, documents: LimitSetFile['documents'], report: Report): void {
  if (Object.hasOwn(documents, name)) return;
  const named = Object.keys(documents).join(', ') || 'none yet';
  report(['source', 'document'], `must be one of the documents of this set: ${named}`);
}

function checkLimit(limit: LimitFile, report: Report): void {
  const subject = BENCH_SCOPE.find(limit.measure);
  if (subject === null) {
    report(['measure'], 'must be a known measure or bench field');
    return;
  }
  checkEnds(limit, subject, report);
  checkUnit(limit, report);
  checkAim(limit, report);
  if (limit.critical && limit.grade === 'should') {
    report(['critical'], 'can be true only when grade is must');
  }
  if (limit.critical && limit.source.seen === 'memory') {
    report(['critical'], 'must be false for a figure from memory, which never decides');
  }
  if (limit.when !== undefined) {
    checkCondition(limit.when, { scope: BENCH_SCOPE, verdicts: 'unknown' }, (path, message) =>
      report(['when', ...path], message),
    );
  }
}

const ENDS_FOR: Readonly<Record<Subject['kind'], readonly (keyof LimitFile)[]>> = {
  number: ['min', 'max'],
  'yes/no': ['is'],
  word: ['oneOf'],
  list: [],
  part: ['fitted'],
};

function checkEnds(limit: LimitFile, subject: Subject, report: Report): void {
  const fitting = ENDS_FOR[subject.kind];
  for (const key of ['min', 'max', 'is', 'oneOf', 'fitted'] as const) {
    if (limit[key] !== undefined && !fitting.includes(key)) {
      report(
        [key],
        `does not fit ${limit.measure}; use ${fitting.join(' or ') || 'another measure'}`,
      );
    }
  }
  if (fitting.every((key) => limit[key] === undefined)) {
    report([], `must have ${fitting.join(' or ')}`);
  }
  limit.oneOf?.forEach((word, i) => {
    if (subject.words !== undefined && !subject.words.includes(word)) {
      report(['oneOf', i], `must be one of: ${subject.words.join(', ')}`);
    }
  });
  if (limit.min !== undefined) checkEnd(limit.min, ['min'], report);
  if (limit.max !== undefined) checkEnd(limit.max, ['max'], report);
  if (typeof limit.min === 'number' && typeof limit.max === 'number' && limit.min > limit.max) {
    report(['max'], `must be at least min (${limit.min})`);
  }
}

function checkEnd(end: LimitEndFile, path: readonly (string | number)[], report: Report): void {
  if (typeof end === 'number') return;
  if (typeof end === 'string') {
    if (BENCH_SCOPE.find(end)?.kind !== 'number') {
      report(path, 'must be a number, or name a measure or field that is one');
    }
    return;
  }
  const key = 'smallerOf' in end ? 'smallerOf' : 'largerOf';
  const figures = 'smallerOf' in end ? end.smallerOf : end.largerOf;
  figures.forEach((one, i) => {
    checkEnd(one, [...path, key, i], report);
  });
}

function checkUnit({ measure, unit }: LimitFile, report: Report): void {
  if (!isMeasureId(measure)) return;
  const measured = MEASURES[measure].unit;
  if (unit === measured || (unit === 'in' && measured === 'mm')) return;
  report(['unit'], `must be ${measured === 'mm' ? 'mm or in' : measured}, as ${measure} is`);
}

/** `low` counts from 0 where no least is published; the other aims need both ends, or a scale. */
function checkAim({ aim, min, max, scale }: LimitFile, report: Report): void {
  if (scale !== undefined) {
    if (aim === undefined) report(['scale'], 'goes only with: aim');
    else if (scale[0] >= scale[1]) report(['scale'], 'must list the least first');
    return;
  }
  if (aim === undefined) return;
  if (max === undefined) report(['aim'], 'needs max or scale, or it has no measure');
  else if (aim !== 'low' && min === undefined) {
    report(['aim'], 'needs min or scale, or it has no measure');
  }
}
