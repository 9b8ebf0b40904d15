// Plain JavaScript on purpose: an old Node must be able to read this far, to say that it is old.
const NEEDED = 24;
const [major] = process.versions.node.split('.').map(Number);
const [, , command, ...rest] = process.argv;

if (major < NEEDED) {
  console.error(
    `This site needs Node ${NEEDED} and this is Node ${process.versions.node}; run npm ci, which brings its own.`,
  );
  process.exitCode = 1;
} else if (!/^[a-z-]+$/.test(command ?? '')) {
  console.error('Usage: node src/cli/run.mjs COMMAND, such as start or demo.');
  process.exitCode = 2;
} else {
  process.argv = [process.argv[0], process.argv[1], ...rest];
  await import(`./${command}.ts`);
}
