import { createReadStream } from 'node:fs';
import { stat } from 'node:fs/promises';
import { resolve } from 'node:path';
import type { Readable } from 'node:stream';
import { parse } from 'yaml';
import { InputProblem } from './grade-arguments.ts';

/** A bench file is about 3 kB; a thousand times that is not one. */
export const LARGEST_BENCH = 1_000_000;

const WHY: Readonly<Record<string, string>> = {
  ENOENT: 'is not there',
  EISDIR: 'is a folder, not a file',
  EACCES: 'may not be read',
  ENOTDIR: 'is not there',
};

function fileProblem(file: string, error: unknown): InputProblem {
  const { code = '' } = error as NodeJS.ErrnoException;
  return new InputProblem(
    `${file} ${WHY[code] ?? `cannot be read (${code || 'unknown reason'})`}.`,
  );
}

const megabytes = (bytes: number): string => `${(bytes / 1e6).toFixed(1)} MB`;

/** npm runs scripts from the project's folder; the path was typed in the caller's. */
export async function locate(file: string): Promise<string> {
  const here = resolve(file);
  const { INIT_CWD } = process.env;
  if (INIT_CWD === undefined) return here;
  const isHere = await stat(here).then(
    () => true,
    () => false,
  );
  return isHere ? here : resolve(INIT_CWD, file);
}

async function openInput(file: string): Promise<Readable> {
  return file === '-' ? process.stdin : createReadStream(await locate(file));
}

/** The whole of one small file. @throws InputProblem */
export async function readWhole(file: string): Promise<string> {
  const name = file === '-' ? 'Standard input' : file;
  const chunks: Buffer[] = [];
  let size = 0;
  try {
    if (file !== '-') {
      const { size: whole } = await stat(await locate(file));
      if (whole > LARGEST_BENCH) throw tooLarge(name, whole);
    }
    for await (const chunk of await openInput(file)) {
      chunks.push(chunk as Buffer);
      size += (chunk as Buffer).length;
      if (size > LARGEST_BENCH) throw tooLarge(name, size);
    }
  } catch (error) {
    throw error instanceof InputProblem ? error : fileProblem(name, error);
  }
  return Buffer.concat(chunks).toString('utf8');
}

const tooLarge = (name: string, size: number): InputProblem =>
  new InputProblem(
    `${name} is too large (${megabytes(size)} or more): a bench file is at most ${megabytes(LARGEST_BENCH)}.`,
  );

/** One line of input, or null where the line is longer than any bench. */
export type InputLine = string | null;

/** The lines of a file of any length, one at a time. @throws InputProblem */
export async function* readLines(file: string): AsyncGenerator<InputLine> {
  const name = file === '-' ? 'Standard input' : file;
  let kept: Buffer[] = [];
  let size = 0;
  const take = (part: Buffer): void => {
    size += part.length;
    // the rest of an over-long line is let go, so that memory stays small
    if (size <= LARGEST_BENCH) kept.push(part);
    else kept = [];
  };
  const finish = (): InputLine => {
    const line = size > LARGEST_BENCH ? null : Buffer.concat(kept).toString('utf8');
    kept = [];
    size = 0;
    return line;
  };
  try {
    for await (const chunk of await openInput(file)) {
      let rest = chunk as Buffer;
      for (let end = rest.indexOf(10); end !== -1; end = rest.indexOf(10)) {
        take(rest.subarray(0, end));
        yield finish();
        rest = rest.subarray(end + 1);
      }
      if (rest.length > 0) take(rest);
    }
  } catch (error) {
    throw error instanceof InputProblem ? error : fileProblem(name, error);
  }
  if (size > 0) yield finish();
}

export type Parsed =
  | { readonly ok: true; readonly value: unknown }
  | { readonly ok: false; readonly reason: string };

/** The first line of a parser's complaint, without its picture of the place. */
function sayReason(error: unknown): string {
  const [first = ''] = (error as Error).message.split('\n');
  if (error instanceof RangeError || first.includes('call stack')) return 'it is nested too deeply';
  return first
    .replace(/\s+/g, ' ')
    .slice(0, 160)
    .replace(/[:.]\s*$/, '')
    .trim();
}

/** A value from text: JSON where it begins as JSON, YAML otherwise. Never throws. */
export function parseText(text: string): Parsed {
  const bare = text.replace(/^\uFEFF/, '');
  if (bare.trim() === '') return { ok: false, reason: 'is empty' };
  const isJson = /^\s*[{[]/.test(bare);
  try {
    return { ok: true, value: isJson ? JSON.parse(bare) : parse(bare, { logLevel: 'error' }) };
  } catch (error) {
    return { ok: false, reason: `is not valid ${isJson ? 'JSON' : 'YAML'}: ${sayReason(error)}` };
  }
}
