/**
 * What of the graphics library's shader text this scene can never use, left out when the site is built:
 * the library carries every shader as text, which a bundler cannot see into. A tenth of the picture's
 * bytes, and less for a slow machine to read before the first frame.
 */

/** Switches that no material, light or mesh of this scene turns on. */
const NEVER_ON: ReadonlySet<string> = new Set([
  'USE_ALPHAHASH',
  'USE_AOMAP',
  'USE_BATCHING',
  'USE_BATCHING_COLOR',
  'USE_BUMPMAP',
  'USE_CLEARCOAT_NORMALMAP',
  'USE_CLEARCOAT_ROUGHNESSMAP',
  'USE_CLEARCOATMAP',
  'USE_DISPERSION',
  'USE_DISPLACEMENTMAP',
  'USE_FOG',
  'USE_INSTANCING',
  'USE_INSTANCING_COLOR',
  'USE_INSTANCING_MORPH',
  'USE_IRIDESCENCE',
  'USE_IRIDESCENCEMAP',
  'USE_IRIDESCENCE_THICKNESSMAP',
  'USE_LIGHTMAP',
  'USE_LIGHT_PROBES',
  'USE_LOGARITHMIC_DEPTH_BUFFER',
  'USE_MORPHCOLORS',
  'USE_MORPHNORMALS',
  'USE_MORPHTARGETS',
  'USE_POINTS_UV',
  'USE_SHEEN',
  'USE_SHEEN_COLORMAP',
  'USE_SHEEN_ROUGHNESSMAP',
  'USE_SKINNING',
  'USE_SPECULARMAP',
  'USE_SPECULAR_COLORMAP',
  'USE_SPECULAR_INTENSITYMAP',
  'USE_THICKNESSMAP',
  'USE_TRANSMISSION',
  'USE_TRANSMISSIONMAP',
]);

/** Whole programs of materials that the scene has none of. */
const NO_PROGRAM =
  /^(?:background|backgroundCube|cube|equirect|distance|distanceRGBA|linedashed|meshmatcap|meshnormal|meshtoon|points|shadow|sprite|vsm)_(?:vert|frag)$/;

/** GLSL without what stands behind a switch that is never on. Compound conditions are left as they are. */
export function leaveOut(glsl: string, never: ReadonlySet<string> = NEVER_ON): string {
  const kept: string[] = [];
  /** one entry for each open condition: is it ours to resolve, and is its present side dropped */
  const open: { ours: boolean; drop: boolean }[] = [];
  const dropping = (): boolean => open.some(({ drop }) => drop);
  for (const line of glsl.split('\n')) {
    const [, word, name] =
      /^\s*#\s*(ifdef|ifndef|if|else|elif|endif)\b\s*(\w*)\s*$/.exec(line) ?? [];
    const starts = /^\s*#\s*if/.test(line);
    const last = open[open.length - 1];
    if (starts) {
      const ours = (word === 'ifdef' || word === 'ifndef') && never.has(name as string);
      if (!ours && !dropping()) kept.push(line);
      open.push({ ours, drop: ours && word === 'ifdef' });
    } else if (last?.ours && (word === 'else' || word === 'endif')) {
      if (word === 'else') last.drop = !last.drop;
      else open.pop();
    } else {
      if (last !== undefined && /^\s*#\s*endif/.test(line)) open.pop();
      if (!dropping()) kept.push(line);
    }
  }
  return kept.join('\n');
}

/** The library's module without the shader text this scene cannot use. */
export function withoutUnusedShaders(code: string): string {
  const programs = new Set(
    [...code.matchAll(/(\w+_(?:vert|frag)): ([\w$]+)/g)].flatMap(([, program, text]) =>
      NO_PROGRAM.test(program as string) ? [text as string] : [],
    ),
  );
  return code.replace(
    /^(var|const) ([\w$]+) = ("(?:[^"\\\n]|\\.)*");$/gm,
    (whole, kind: string, name: string, text: string) => {
      if (programs.has(name)) return `${kind} ${name} = "";`;
      if (!text.includes('#if')) return whole;
      return `${kind} ${name} = ${JSON.stringify(leaveOut(JSON.parse(text) as string))};`;
    },
  );
}

/** For the bundler. */
export const leaveOutShaders = () => ({
  name: 'leave-out-shaders',
  enforce: 'pre' as const,
  transform(code: string, id: string) {
    if (!/three[\\/]build[\\/]three\.module\.js/.test(id)) return null;
    const short = withoutUnusedShaders(code);
    // a new version of the library that writes its shaders another way must not pass unnoticed
    if (short.length > code.length - 20_000) throw new Error('no shader text was left out');
    return { code: short, map: null };
  },
});
