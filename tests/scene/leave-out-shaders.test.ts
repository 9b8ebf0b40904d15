import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { leaveOut, withoutUnusedShaders } from '../../src/scene/leave-out-shaders.ts';

const NEVER = new Set(['USE_SKIN', 'USE_FOG']);

describe('shader text left out of the build', () => {
  // GLSL ES 3.00 specification, 3.4 Preprocessor: what an undefined name keeps and drops
  it('drops what an undefined switch guards, and keeps its other side', () => {
    expect(leaveOut('a\n#ifdef USE_SKIN\nb\n#else\nc\n#endif\nd', NEVER)).toBe('a\nc\nd');
    expect(leaveOut('#ifndef USE_SKIN\nb\n#else\nc\n#endif', NEVER)).toBe('b');
  });

  it('keeps every other condition whole, nested or compound', () => {
    const other = '#ifdef USE_MAP\nb\n#else\nc\n#endif\n#if defined( USE_FOG ) || A > 1\nd\n#endif';
    expect(leaveOut(other, NEVER)).toBe(other);
    expect(
      leaveOut(
        '#ifdef USE_MAP\n#ifdef USE_FOG\nx\n#if A\ny\n#else\nz\n#endif\n#endif\nw\n#endif',
        NEVER,
      ),
    ).toBe('#ifdef USE_MAP\nw\n#endif');
  });

  it('leaves the library whole but for its shader text', () => {
    const path = new URL('../../node_modules/three/build/three.module.js', import.meta.url);
    const code = readFileSync(path, 'utf8');
    const short = withoutUnusedShaders(code);
    expect(short.split('\n').length).toBe(code.split('\n').length);
    expect(code.length - short.length).toBeGreaterThan(40_000);
    // the programs of the materials in use are still there
    for (const kept of ['meshphysical_frag', 'meshphong_vert', 'meshlambert_frag', 'depth_vert']) {
      const text = new RegExp(`${kept}: ([\\w$]+)`).exec(short)?.[1]?.replace('$', '\\$');
      expect(short, kept).toMatch(new RegExp(`const ${text} = ".{400}`));
    }
  });
});
