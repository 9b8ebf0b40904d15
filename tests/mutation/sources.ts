import { readdirSync } from 'node:fs';
import { join, relative } from 'node:path';
import ts from 'typescript';
import { instrument, type Mutant } from './mutants.ts';

const ROOT = join(import.meta.dirname, '../..');

/** Folders whose code is changed. */
const FOLDERS = ['src/bench', 'src/limits'];
/**
 * Left as they are: `observe.ts` and `seen/` put a bench into words for the page (presentation), and
 * have their own tests with the pages' words; index files only pass on.
 */
const LEFT = /\/(index|observe)\.ts$|\/seen\//;

function* filesIn(folder: string): Generator<string> {
  for (const entry of readdirSync(folder, { withFileTypes: true })) {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) yield* filesIn(path);
    else if (entry.name.endsWith('.ts')) yield path;
  }
}

export type Instrumented = {
  /** absolute path of a source file to the JavaScript to run in its place */
  readonly code: Readonly<Record<string, string>>;
  readonly mutants: readonly Mutant[];
};

/** Every source file with every change in it. */
export function instrumentAll(): Instrumented {
  const paths = FOLDERS.flatMap((folder) => [...filesIn(join(ROOT, folder))])
    .filter((path) => !LEFT.test(path))
    .sort();
  const options: ts.CompilerOptions = {
    strict: true,
    target: ts.ScriptTarget.ESNext,
    module: ts.ModuleKind.ESNext,
    moduleResolution: ts.ModuleResolutionKind.Bundler,
    allowImportingTsExtensions: true,
    noEmit: true,
    types: [],
  };
  const program = ts.createProgram(paths, options);
  const checker = program.getTypeChecker();
  const code: Record<string, string> = {};
  const mutants: Mutant[] = [];
  for (const path of paths) {
    const source = program.getSourceFile(path);
    if (source === undefined) continue;
    const made = instrument(source, relative(ROOT, path), checker, mutants.length);
    mutants.push(...made.mutants);
    code[path] = ts.transpileModule(made.text, {
      fileName: path,
      compilerOptions: { target: ts.ScriptTarget.ESNext, module: ts.ModuleKind.ESNext },
    }).outputText;
  }
  return { code, mutants };
}
