import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterEach, describe, expect, test } from 'vitest';
import {
  loadBench,
  loadBenches,
  loadFaultCatalogue,
  loadLimitSets,
  loadRacks,
  loadTasks,
  loadUnits,
} from '../../src/store/content-files.ts';

const made: string[] = [];

/** A content folder with these files in it. */
function contentOf(files: Record<string, string>): string {
  const dir = mkdtempSync(join(tmpdir(), 'content-'));
  made.push(dir);
  for (const [path, text] of Object.entries(files)) {
    mkdirSync(dirname(join(dir, path)), { recursive: true });
    writeFileSync(join(dir, path), text);
  }
  return dir;
}

afterEach(() => {
  for (const dir of made.splice(0)) rmSync(dir, { recursive: true });
});

const SET = `schema: limits/1
id: own
version: 1
title: Workshop rules
edition: Agreed in the workshop
caution: Not the law.
basis: own
documents:
  rules:
    title: Workshop rules
limits:
  - id: own.knife.gap
    title: Knife gap
    measure: knife.gapMax
    max: 6
    unit: mm
    source: { document: rules, seen: primary }
`;

const FAULT = `schema: faults/1
part: place
faults:
  - id: a-fault
    title: A fault
    looks: Seen.
    from: Here.
    why: So.
    do: This.
    remedies: [report]
    severity: caution
    critical: false
    when: { of: place.litter, is: true }
`;

describe('the content of this project', () => {
  test('loads whole, each file named as its id', () => {
    expect([...loadLimitSets().keys()]).toEqual(
      expect.arrayContaining(['eu', 'gb', 'practice', 'us-ca']),
    );
    expect(loadFaultCatalogue().entries.length).toBeGreaterThanOrEqual(60);
    expect(loadBenches().size).toBeGreaterThan(0);
    expect(loadUnits().size).toBe(8);
    for (const task of loadTasks().values()) {
      expect(loadBenches().has(task.bench), task.id).toBe(true);
      for (const set of task.limits) expect(loadLimitSets().has(set), task.id).toBe(true);
    }
  });

  test('says of every set what it is not', () => {
    for (const { id, caution, edition } of loadLimitSets().values()) {
      expect(caution, id).toMatch(/\bnot\b|No document/);
      expect(edition, id).not.toBe('');
    }
  });

  test('is frozen all the way down, and read once', () => {
    const bench = loadBenches().get('practice-bench');
    expect(Object.isFrozen(bench?.blade.condition.cracks)).toBe(true);
    expect(Object.isFrozen(loadLimitSets().get('gb')?.limits[0]?.source)).toBe(true);
    expect(loadBenches()).toBe(loadBenches());
    expect(loadBench('practice-bench')).toEqual(bench);
    expect(loadBench('practice-bench')).toBe(loadBench('practice-bench'));
    expect(loadBench('../racks/alder-lane')).toBeUndefined();
  });
});

describe('a content file with a slip in it', () => {
  test('is named with its line and what the field may be', () => {
    const dir = contentOf({ 'limits/own.yaml': SET.replace('unit: mm', 'unit: cm') });
    expect(() => loadLimitSets(dir)).toThrow(
      /own\.yaml, line 16: limits\[0\]\.unit must be one of: mm, in/,
    );
  });

  test('names the line of the nearest group when a field is left out', () => {
    const dir = contentOf({ 'limits/own.yaml': SET.replace('    title: Knife gap\n', '') });
    expect(() => loadLimitSets(dir)).toThrow(/own\.yaml, line 12: limits\[0\]\.title must be text/);
  });

  test('names the line of a condition deep in a fault', () => {
    const dir = contentOf({ 'faults/place.yaml': FAULT.replace('place.litter', 'place.liter') });
    expect(() => loadFaultCatalogue(dir)).toThrow(
      /place\.yaml, line 13: faults\[0\]\.when\.of must be a known/,
    );
  });

  test('a rack of blades is named with its line too, and refused when it is no YAML', () => {
    const rack =
      'schema: rack/1\nid: own\ntitle: Own\nknives: []\nblades:\n  - id: one\n    kerf: .nan\n';
    expect(() => loadRacks(contentOf({ 'racks/own.yaml': rack }))).toThrow(
      /own\.yaml, line 6: blades\[0\]\.diameter must be a number/,
    );
    expect(() => loadRacks(contentOf({ 'racks/own.yaml': 'id: [own' }))).toThrow(
      /own\.yaml, line 1: not valid YAML: [^\n]+$/,
    );
  });

  test('that is no YAML is refused in one line', () => {
    const dir = contentOf({ 'limits/own.yaml': 'id: [own\ntitle: x' });
    expect(() => loadLimitSets(dir)).toThrow(/own\.yaml, line \d+: not valid YAML: [^\n]+$/);
  });

  test('with an id that is not its name is refused', () => {
    const dir = contentOf({ 'limits/ours.yaml': SET });
    expect(() => loadLimitSets(dir)).toThrow(/ours\.yaml: id must be ours, as the file is named\./);
  });

  test('that repeats a fault of another file is refused', () => {
    const dir = contentOf({ 'faults/a.yaml': FAULT, 'faults/b.yaml': FAULT });
    expect(() => loadFaultCatalogue(dir)).toThrow(/two fault files use the id a-fault\./);
  });

  test('a bench and a task are refused by their fields too', () => {
    const dir = contentOf({ 'benches/b.yaml': 'schema: bench/1\n', 'tasks/t.yaml': 'id: t\n' });
    expect(() => loadBenches(dir)).toThrow(/b\.yaml, line 1: blade must be given/);
    expect(() => loadTasks(dir)).toThrow(/t\.yaml, line 1: title must be text/);
  });

  test('a folder that is not there is named', () => {
    expect(() => loadUnits(contentOf({}))).toThrow(/The content folder .*units is not there\./);
  });
});
