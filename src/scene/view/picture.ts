import {
  BufferAttribute,
  BufferGeometry,
  DepthTexture,
  HalfFloatType,
  LinearFilter,
  Mesh,
  NearestFilter,
  OrthographicCamera,
  type PerspectiveCamera,
  RedFormat,
  type Scene,
  UnsignedByteType,
  UnsignedIntType,
  Vector2,
  type WebGLRenderer,
  WebGLRenderTarget,
} from 'three';
import { createFinishMaterial, createOcclusionMaterial } from './finish-shaders.ts';

/** How much trouble is taken over one frame. */
export type Finish = {
  /** share of the canvas's own pixels that are drawn, along each edge */
  readonly sharpness: number;
  /** samples for smooth edges: 0 or 4 */
  readonly samples: 0 | 4;
  /** darkening where surfaces come close together */
  readonly contact: 'none' | 'full';
};

export type Picture = {
  /** device pixels of the canvas at its best */
  setSize(width: number, height: number): void;
  draw(scene: Scene, camera: PerspectiveCamera, finish: Finish): void;
  dispose(): void;
};

/**
 * Draws the scene into a buffer and then onto the canvas with tone, soft contact shade and a little
 * grain against banding. Two buffers, one smooth for rest and one light for motion, so that nothing
 * is allocated or compiled when the bench starts or stops moving.
 */
export function createPicture(renderer: WebGLRenderer): Picture {
  const canFloat =
    renderer.extensions.has('EXT_color_buffer_float') ||
    renderer.extensions.has('EXT_color_buffer_half_float');
  const type = canFloat ? HalfFloatType : UnsignedByteType;
  const targets = new Map<0 | 4, WebGLRenderTarget>();
  const shade = new WebGLRenderTarget(1, 1, {
    format: RedFormat,
    type: UnsignedByteType,
    minFilter: NearestFilter,
    magFilter: NearestFilter,
    depthBuffer: false,
  });
  const occlusion = createOcclusionMaterial();
  const finishing = createFinishMaterial();
  const sheet = new Mesh(fullTriangle(), finishing);
  sheet.frustumCulled = false;
  const flat = new OrthographicCamera(-1, 1, 1, -1, 0, 1);
  let best = { width: 1, height: 1 };
  const canvas = new Vector2();

  const targetFor = (samples: 0 | 4, width: number, height: number): WebGLRenderTarget => {
    const found = targets.get(samples);
    if (found) {
      if (found.width !== width || found.height !== height) found.setSize(width, height);
      return found;
    }
    const depthTexture = new DepthTexture(width, height, UnsignedIntType);
    depthTexture.minFilter = NearestFilter;
    depthTexture.magFilter = NearestFilter;
    const target = new WebGLRenderTarget(width, height, {
      type,
      samples,
      minFilter: LinearFilter,
      magFilter: LinearFilter,
      depthTexture,
    });
    targets.set(samples, target);
    return target;
  };

  const pass = (material: typeof finishing, to: WebGLRenderTarget | null): void => {
    sheet.material = material;
    renderer.setRenderTarget(to);
    renderer.render(sheet, flat);
  };

  return {
    setSize(width, height) {
      best = { width, height };
    },
    draw(scene, camera, { sharpness, samples, contact }) {
      const width = Math.max(1, Math.round(best.width * sharpness));
      const height = Math.max(1, Math.round(best.height * sharpness));
      // a light frame is light to the last step: the page stretches the canvas for nothing
      renderer.getDrawingBufferSize(canvas);
      if (canvas.x !== width || canvas.y !== height) {
        renderer.setDrawingBufferSize(width, height, 1);
      }
      const target = targetFor(samples, width, height);
      renderer.setRenderTarget(target);
      renderer.render(scene, camera);
      const shared = {
        depthMap: target.depthTexture,
        clip: [camera.near, camera.far],
        slope: [camera.aspect, 1].map((k) => k * Math.tan((camera.fov * Math.PI) / 360)),
      };
      if (contact === 'full') {
        const [w, h] = [Math.ceil(width / 2), Math.ceil(height / 2)];
        if (shade.width !== w || shade.height !== h) shade.setSize(w, h);
        setUniforms(occlusion, { ...shared, size: [w, h] });
        pass(occlusion, shade);
      }
      setUniforms(finishing, {
        ...shared,
        picture: target.texture,
        shadeMap: shade.texture,
        size: [shade.width, shade.height],
        contact: contact === 'full' ? 1 : 0,
      });
      pass(finishing, null);
    },
    dispose() {
      for (const target of targets.values()) {
        target.depthTexture?.dispose();
        target.dispose();
      }
      shade.dispose();
      occlusion.dispose();
      finishing.dispose();
      sheet.geometry.dispose();
    },
  };
}

type Material = ReturnType<typeof createFinishMaterial>;

function setUniforms(material: Material, values: Record<string, unknown>): void {
  for (const [name, value] of Object.entries(values)) {
    const uniform = material.uniforms[name];
    if (uniform === undefined) continue;
    if (Array.isArray(value)) uniform.value.set(...value);
    else uniform.value = value;
  }
}

/** One triangle that covers the canvas. */
function fullTriangle(): BufferGeometry {
  const geometry = new BufferGeometry();
  geometry.setAttribute(
    'position',
    new BufferAttribute(new Float32Array([-1, -1, 0, 3, -1, 0, -1, 3, 0]), 3),
  );
  return geometry;
}
