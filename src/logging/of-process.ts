/**
 * One value for the whole process. A test runs these modules from source and the built pages have a packed copy
 * of them, so a plain variable of a module would be there twice.
 */
export function ofProcess<Value>(name: string, make: () => Value): Value {
  const holder = globalThis as { [slot: symbol]: unknown };
  const slot = Symbol.for(`signed-to-saw.${name}`);
  holder[slot] ??= make();
  return holder[slot] as Value;
}
