import { ShaderMaterial, Vector2 } from 'three';

const VERTEX = /* glsl */ `
varying vec2 at;
void main() {
  at = position.xy * 0.5 + 0.5;
  gl_Position = vec4(position.xy, 0.0, 1.0);
}`;

/** Depth buffer to metres in front of the eye. */
const DEPTH = /* glsl */ `
varying vec2 at;
uniform sampler2D depthMap;
uniform vec2 clip;
uniform vec2 slope;
uniform vec2 size;
float away(vec2 uv) {
  float d = texture2D(depthMap, uv).r;
  return clip.x * clip.y / (clip.y - d * (clip.y - clip.x));
}
vec3 place(vec2 uv) {
  float z = away(uv);
  return vec3((uv * 2.0 - 1.0) * slope * z, -z);
}`;

/**
 * Shade where surfaces come close together, from the depth buffer alone: a fixed spiral of samples in
 * a ball of RADIUS metres, turned from pixel to pixel in a 4 by 4 pattern that the finish averages out.
 * After M. McGuire, B. Mara, D. Luebke, "Scalable Ambient Obscurance", HPG 2012.
 */
const OCCLUSION = /* glsl */ `
${DEPTH}
const float RADIUS = 0.075;
const int SAMPLES = 14;
vec3 facing(vec3 here) {
  vec2 step = 1.0 / size;
  vec3 r = place(at + vec2(step.x, 0.0)) - here;
  vec3 l = here - place(at - vec2(step.x, 0.0));
  vec3 u = place(at + vec2(0.0, step.y)) - here;
  vec3 d = here - place(at - vec2(0.0, step.y));
  vec3 dx = abs(r.z) < abs(l.z) ? r : l;
  vec3 dy = abs(u.z) < abs(d.z) ? u : d;
  return normalize(cross(dx, dy));
}
void main() {
  vec3 here = place(at);
  if (-here.z > clip.y * 0.6) { gl_FragColor = vec4(1.0); return; }
  vec3 normal = facing(here);
  vec2 cell = floor(mod(gl_FragCoord.xy, 4.0));
  float turn = fract(cell.x * 0.5 + cell.y * 0.25 + cell.x * cell.y * 0.0625 + cell.y * 0.0625) * 6.2832;
  vec2 reach = RADIUS / (slope * -here.z) * 0.5;
  float sum = 0.0;
  for (int i = 0; i < SAMPLES; i++) {
    float share = (float(i) + 0.5) / float(SAMPLES);
    float angle = turn + float(i) * 2.39996;
    vec2 uv = at + reach * share * vec2(cos(angle), sin(angle));
    vec3 v = place(uv) - here;
    float vv = dot(v, v);
    float vn = dot(v, normal) - 0.0012 + here.z * 0.0008;
    float f = max(RADIUS * RADIUS - vv, 0.0);
    sum += f * f * f * max(vn / (vv + 1e-6), 0.0);
  }
  float r6 = RADIUS * RADIUS * RADIUS * RADIUS * RADIUS * RADIUS;
  float open = max(0.0, 1.0 - sum * 0.05 / (r6 * float(SAMPLES)));
  gl_FragColor = vec4(open);
}`;

/**
 * Puts the picture on the canvas: shade (a little warm, as light bounced between surfaces is), tone,
 * sRGB, and a grain below what the eye can see.
 */
const FINISH = /* glsl */ `
${DEPTH}
uniform sampler2D picture;
uniform sampler2D shadeMap;
uniform float contact;
float shadeHere() {
  float depth = away(at);
  vec2 base = floor(at * size - 0.5) + 0.5;
  float sum = 0.0;
  float weight = 1e-4;
  for (int y = -1; y <= 2; y++) {
    for (int x = -1; x <= 2; x++) {
      vec2 uv = (base + vec2(float(x), float(y))) / size;
      float w = max(0.0, 1.0 - abs(away(uv) - depth) / (0.012 + depth * 0.012));
      sum += w * texture2D(shadeMap, uv).r;
      weight += w;
    }
  }
  return sum / weight;
}
void main() {
  vec3 colour = texture2D(picture, at).rgb;
  if (contact > 0.0) {
    float open = mix(1.0, shadeHere(), contact);
    colour *= open * vec3(1.0, 0.85 + 0.15 * open, 0.8 + 0.2 * open);
  }
  vec2 middle = at - 0.5;
  colour *= 1.0 - 0.22 * dot(middle, middle);
  gl_FragColor = vec4(colour, 1.0);
  #include <tonemapping_fragment>
  #include <colorspace_fragment>
  float grain = fract(sin(dot(gl_FragCoord.xy, vec2(12.9898, 78.233))) * 43758.5453);
  gl_FragColor.rgb += (grain - 0.5) / 255.0;
}`;

const depthUniforms = () => ({
  depthMap: { value: null },
  clip: { value: new Vector2() },
  slope: { value: new Vector2() },
  size: { value: new Vector2(1, 1) },
});

export const createOcclusionMaterial = (): ShaderMaterial =>
  new ShaderMaterial({
    uniforms: depthUniforms(),
    vertexShader: VERTEX,
    fragmentShader: OCCLUSION,
    depthTest: false,
    depthWrite: false,
    toneMapped: false,
  });

export const createFinishMaterial = (): ShaderMaterial =>
  new ShaderMaterial({
    uniforms: {
      ...depthUniforms(),
      picture: { value: null },
      shadeMap: { value: null },
      contact: { value: 0 },
    },
    vertexShader: VERTEX,
    fragmentShader: FINISH,
    depthTest: false,
    depthWrite: false,
  });
