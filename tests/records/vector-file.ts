import { readFileSync } from 'node:fs';

const folder = new URL('../fixtures/vectors/', import.meta.url);

/** A published vector as text; where each comes from is in tests/fixtures/vectors/source.md. */
export const vectorText = (name: string): string => readFileSync(new URL(name, folder), 'utf8');

export const vectorJson = <Shape>(name: string): Shape => JSON.parse(vectorText(name)) as Shape;
