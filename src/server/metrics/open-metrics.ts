import type { Family, Labels } from './families.ts';

/** OpenMetrics 1.0, https://github.com/OpenObservability/OpenMetrics/blob/main/specification/OpenMetrics.md */
export const OPEN_METRICS_TYPE = 'application/openmetrics-text; version=1.0.0; charset=utf-8';

const escapeText = (text: string): string =>
  text.replaceAll('\\', '\\\\').replaceAll('\n', '\\n').replaceAll('"', '\\"');

function labelText(labels: Labels): string {
  const parts = Object.entries(labels).map(([name, value]) => `${name}="${escapeText(value)}"`);
  return parts.length === 0 ? '' : `{${parts.join(',')}}`;
}

/** The families as text: what each is, then its lines, and the mark of the end, without which it is not whole. */
export function writeOpenMetrics(families: readonly Family[]): string {
  const lines: string[] = [];
  for (const { name, type, unit, help, samples } of families) {
    lines.push(`# TYPE ${name} ${type}`);
    if (unit !== undefined) lines.push(`# UNIT ${name} ${unit}`);
    lines.push(`# HELP ${name} ${escapeText(help)}`);
    for (const { suffix, labels, value } of samples()) {
      lines.push(`${name}${suffix}${labelText(labels)} ${value}`);
    }
  }
  return `${lines.join('\n')}\n# EOF\n`;
}
