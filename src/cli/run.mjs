// Plain JavaScript on purpose: an old Node must be able to read this far, to say that it is old.
import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const NEEDED = 24;
const [major] = process.versions.node.split('.').map(Number);
const [, script, command, ...rest] = process.argv;

/** The Node that npm ci brought, or undefined. Before version 11, npm takes its link in node_modules/.bin away again. */
function findBrought() {
  const { platform, arch } = process;
  const [system, file] = platform === 'win32' ? ['win', 'node.exe'] : [platform, 'node'];
  return [`node-${system}-${arch}`, `node-bin-${system}-${arch}`]
    .map((name) => `../../node_modules/${name}/bin/${file}`)
    .map((path) => fileURLToPath(new URL(path, import.meta.url)))
    .find(existsSync);
}

function handOver(program) {
  const child = spawn(program, [script, command, ...rest], { stdio: 'inherit' });
  // Ctrl-C reaches the child by itself, and a second one would end it at once
  process.on('SIGINT', () => {});
  process.on('SIGTERM', () => child.kill('SIGTERM'));
  child.on('exit', (code) => {
    process.exitCode = code ?? 1;
  });
}

if (!/^[a-z-]+$/.test(command ?? '')) {
  console.error('Usage: node src/cli/run.mjs COMMAND, such as start or demo.');
  process.exitCode = 2;
} else if (major >= NEEDED) {
  process.argv = [process.argv[0], script, ...rest];
  await import(`./${command}.ts`);
} else {
  const brought = findBrought();
  if (brought) handOver(brought);
  else {
    console.error(
      `This site needs Node ${NEEDED} and this is Node ${process.versions.node}; run npm ci, which brings its own.`,
    );
    process.exitCode = 1;
  }
}
