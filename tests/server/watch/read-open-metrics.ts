/**
 * Reads OpenMetrics text by the rules of the standard and nothing of ours, and refuses what breaks one:
 * https://github.com/OpenObservability/OpenMetrics/blob/main/specification/OpenMetrics.md
 */
export type ReadFamily = {
  readonly type: string;
  unit?: string;
  help?: string;
  readonly samples: { name: string; labels: Record<string, string>; value: number }[];
};

/** Suffixes a family of each type may use. */
const SUFFIXES: Readonly<Record<string, readonly string[]>> = {
  counter: ['_total', '_created'],
  gauge: [''],
  histogram: ['_bucket', '_count', '_sum', '_created'],
  info: ['_info'],
};

const NAME = /^[a-zA-Z_:][a-zA-Z0-9_:]*$/;
const SAMPLE = /^([a-zA-Z_:][a-zA-Z0-9_:]*)(?:\{(.*)\})? (\S+)$/s;
const LABEL = /([a-zA-Z_][a-zA-Z0-9_]*)="((?:[^"\\\n]|\\[\\"n])*)"(,|$)/y;

function must(holds: boolean, rule: string): asserts holds {
  if (!holds) throw new Error(rule);
}

function readLabels(text: string): Record<string, string> {
  const labels: Record<string, string> = {};
  LABEL.lastIndex = 0;
  while (LABEL.lastIndex < text.length) {
    const at = LABEL.lastIndex;
    const found = LABEL.exec(text);
    must(found !== null, `a label cannot be read at ${at} of ${text}`);
    const [, name = '', value = ''] = found;
    must(!(name in labels), `the label ${name} is there twice`);
    labels[name] = value.replace(/\\(.)/g, (_all, sign) => (sign === 'n' ? '\n' : sign));
  }
  return labels;
}

export function readOpenMetrics(text: string): Map<string, ReadFamily> {
  must(text.endsWith('# EOF\n'), 'the text ends with # EOF and a line feed');
  const lines = text.slice(0, -'# EOF\n'.length).split('\n');
  must(lines.pop() === '', 'every line ends with a line feed');
  const families = new Map<string, ReadFamily>();
  let current = '';
  for (const line of lines) {
    must(line !== '', 'there is no empty line');
    const about = /^# (TYPE|UNIT|HELP) (\S+) (.*)$/s.exec(line);
    if (about !== null) {
      const [, what, name = '', value = ''] = about;
      must(NAME.test(name), `${name} is no name`);
      if (what === 'TYPE') {
        must(!families.has(name), `the family ${name} is in one piece`);
        must(value in SUFFIXES, `${value} is a type`);
        families.set(name, { type: value, samples: [] });
        current = name;
      }
      const family = families.get(name);
      must(
        family !== undefined && name === current,
        `${line} stands in its family, after its type`,
      );
      must(family.samples.length === 0, `${line} stands before the samples`);
      if (what === 'UNIT') {
        must(name.endsWith(`_${value}`), `the name ${name} ends with its unit`);
        family.unit = value;
      }
      if (what === 'HELP') family.help = value;
      continue;
    }
    must(!line.startsWith('#'), `${line} is of no kind the standard knows`);
    const [, name = '', labelText = '', figure = ''] = SAMPLE.exec(line) ?? [];
    const family = families.get(current);
    must(family !== undefined && name.startsWith(current), `${line} stands in its family`);
    const suffix = name.slice(current.length);
    must(SUFFIXES[family.type]?.includes(suffix) === true, `${name} fits a ${family.type}`);
    const value = Number(figure);
    must(Number.isFinite(value), `${figure} is a number`);
    if (family.type === 'counter') must(value >= 0, `${name} is not below 0`);
    family.samples.push({ name, labels: readLabels(labelText), value });
  }
  for (const [name, family] of families) checkFamily(name, family);
  return families;
}

function checkFamily(name: string, { type, samples }: ReadFamily): void {
  const keys = samples.map((one) => one.name + JSON.stringify(Object.entries(one.labels).sort()));
  must(new Set(keys).size === keys.length, `${name} has no sample twice`);
  if (type !== 'histogram') return;
  const byLabels = new Map<string, typeof samples>();
  for (const one of samples) {
    const { le: _le, ...rest } = one.labels;
    const key = JSON.stringify(rest);
    byLabels.set(key, [...(byLabels.get(key) ?? []), one]);
  }
  for (const some of byLabels.values()) {
    const buckets = some.filter((one) => one.name.endsWith('_bucket'));
    const bounds = buckets.map(({ labels }) =>
      Number((labels['le'] ?? '').replace('+Inf', 'Infinity')),
    );
    must(bounds.at(-1) === Number.POSITIVE_INFINITY, `${name} has the bucket +Inf last`);
    must(
      buckets.every(({ labels }) => /^(\+Inf|\d+\.\d+)$/.test(labels['le'] ?? '')),
      'le is a float',
    );
    for (let i = 1; i < buckets.length; i++) {
      must((bounds[i] as number) > (bounds[i - 1] as number), `the bounds of ${name} go up`);
      const [before, after] = [buckets[i - 1], buckets[i]] as { value: number }[];
      must((after?.value ?? 0) >= (before?.value ?? 0), `the buckets of ${name} add up`);
    }
    const count = some.find((one) => one.name.endsWith('_count'));
    must(count?.value === buckets.at(-1)?.value, `the count of ${name} is that of +Inf`);
    must(
      some.some((one) => one.name.endsWith('_sum')),
      `${name} has a sum`,
    );
  }
}
