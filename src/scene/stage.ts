import { Color, NeutralToneMapping, PCFShadowMap, Scene, WebGLRenderer } from 'three';
import type { Bench, Part } from '../bench/index.ts';
import { buildBench } from './build/build-bench.ts';
import type { RackedKnife } from './build/knife-rack.ts';
import { layoutOf } from './build/layout.ts';
import type { CutShow, CutState } from './motion/cut-show.ts';
import type { InstrumentHolder, Shown } from './tools/instrument.ts';
import { boundsOf } from './view/bounds.ts';
import { createEyeDrive } from './view/flight.ts';
import { type Grip, listenForGestures } from './view/gestures.ts';
import { createHighlight } from './view/highlight.ts';
import { createLights, lightShare } from './view/lights.ts';
import { createLoop } from './view/loop.ts';
import { createEye, type Pose, setEye } from './view/orbit.ts';
import { createPicker, type PointerKind } from './view/pick.ts';
import { createPicture } from './view/picture.ts';
import { AT_REST, createQuality, whenDrawn } from './view/quality.ts';
import { createSeeThrough } from './view/see-through.ts';
import { makeSurroundings } from './view/surroundings.ts';
import { THEMES } from './view/themes.ts';
import { createVeil } from './view/veil.ts';
import {
  isViewpoint,
  poseOfPart,
  poseOfTool,
  poseOfViewpoint,
  VIEWPOINTS,
} from './view/viewpoints.ts';

export type StageOptions = {
  readonly reducedMotion: boolean;
  readonly theme: 'light' | 'dark';
  /** riving knives that hang in a rack by the wall; left out, there is no rack */
  readonly rack?: readonly RackedKnife[];
  onPick(part: Part, detail?: { tooth?: number }): void;
  /** whether a drag on this part turns it by hand, as the blade is turned with the supply locked off */
  mayTurn?(part: Part): boolean;
  /** whole teeth the blade was turned by a drag, positive as it runs */
  onTurn?(teeth: number): void;
  onHover?(part: Part | null): void;
  /** ms the last frame took to hand to the graphics card */
  onFrame?(ms: number): void;
  onContextLost?(): void;
  onContextRestored?(): void;
};

/** Radians of turn for each pixel dragged. */
const TURN = 0.0058;
/** Device pixels drawn for each CSS pixel, at most. */
const SHARPEST = 2;

export function createStage(canvas: HTMLCanvasElement, first: Bench, options: StageOptions) {
  const theme = THEMES[options.theme];
  const renderer = new WebGLRenderer({
    canvas,
    antialias: false,
    alpha: false,
    stencil: false,
    powerPreference: 'high-performance',
  });
  renderer.toneMapping = NeutralToneMapping;
  renderer.toneMappingExposure = theme.exposure;
  renderer.shadowMap.enabled = true;
  renderer.shadowMap.type = PCFShadowMap;
  renderer.shadowMap.autoUpdate = false;
  renderer.shadowMap.needsUpdate = true;
  renderer.info.autoReset = false;

  let bench = first;
  const scene = new Scene();
  scene.background = new Color(theme.room.wall);
  const surroundings = makeSurroundings(theme);
  scene.environment = surroundings;
  const built = buildBench(bench, { room: theme.room });
  const lights = createLights(theme, bench.place.light);
  const lightPlace = (lux: number): void => {
    lights.setTheme(theme, lux);
    scene.environmentIntensity = theme.around.strength * lightShare(lux);
  };
  lightPlace(bench.place.light);
  scene.add(built.root, lights.group);
  const camera = createEye();
  const picture = createPicture(renderer);
  const quality = createQuality();
  const highlight = createHighlight(built.root, theme.ink);
  const seeThrough = createSeeThrough(built.root);
  const veil = createVeil(built.root, theme.ink);
  const picker = createPicker(built.root, built.spindle, seeThrough.has);

  const aspect = () => Math.max(0.2, canvas.clientWidth / Math.max(1, canvas.clientHeight));
  const drive = createEyeDrive(poseOfViewpoint('operator', bench, aspect()), {
    bounds: () => boundsOf(bench),
    motion: options.reducedMotion ? 'none' : 'smooth',
  });

  let timed = false;
  const loop = createLoop({
    step: (now) => drive.step(now),
    note: quality.note,
    settle: quality.settle,
    draw(how) {
      const began = performance.now();
      renderer.info.reset();
      setEye(camera, drive.pose());
      lights.aimLamp(camera);
      const { target } = drive.pose();
      if (veil.aim(camera, target, workOf(bench), layoutOf(bench).floor / 1000)) {
        renderer.shadowMap.needsUpdate = true;
      }
      picture.draw(scene, camera, how === 'rest' ? AT_REST : quality.moving());
      if (how === 'rest' && !timed) {
        timed = true;
        whenDrawn(renderer.getContext() as WebGL2RenderingContext, quality.start);
        setTimeout(furnish);
      }
      if (how === 'rest' && furnished) tellWhole();
      options.onFrame?.(performance.now() - began);
    },
  });

  // the workshop and the people come once the bench itself is drawn
  let closed = false;
  let furnished = false;
  let tellWhole: () => void = () => {};
  const whole = new Promise<void>((done) => {
    tellWhole = done;
  });
  const furnish = async (): Promise<void> => {
    const more = await import('./build/around.ts').catch(() => null);
    // out of reach, and then the bench stands alone
    if (more !== null && !closed) {
      built.add(more.createAround(theme.room, options.rack));
      seeThrough.refresh();
      renderer.shadowMap.needsUpdate = true;
    }
    loop.stir();
    furnished = true;
  };

  const size = () => ({ width: canvas.clientWidth, height: canvas.clientHeight });
  const shift = (change: (pose: Pose) => Pose): void => {
    drive.moveTo(change(drive.pose()));
    loop.stir();
  };
  const fly = (pose: Pose): void => {
    drive.flyTo(pose);
    loop.stir();
  };
  const orbit = (dx: number, dy: number): void =>
    shift((pose) => ({
      ...pose,
      azimuth: pose.azimuth - dx * TURN,
      elevation: pose.elevation + dy * TURN,
    }));
  const zoom = (factor: number): void =>
    shift((pose) => ({ ...pose, distance: pose.distance * factor }));
  const pan = (dx: number, dy: number): void =>
    shift((pose) => {
      const perPixel =
        (2 * pose.distance * Math.tan((camera.fov * Math.PI) / 360)) /
        Math.max(1, canvas.clientHeight);
      const across = [Math.cos(pose.azimuth), 0, -Math.sin(pose.azimuth)] as const;
      const up = [
        -Math.sin(pose.elevation) * Math.sin(pose.azimuth),
        Math.cos(pose.elevation),
        -Math.sin(pose.elevation) * Math.cos(pose.azimuth),
      ] as const;
      const along = (i: 0 | 1 | 2) => pose.target[i] + (up[i] * dy - across[i] * dx) * perPixel;
      return { ...pose, target: [along(0), along(1), along(2)] };
    });

  const pickAt = (point: { x: number; y: number; kind: PointerKind }) => {
    setEye(camera, drive.pose());
    return picker.pick(point, size(), camera, bench);
  };
  /** The blade in the hand: it follows the pointer round its spindle, and comes to rest on a whole tooth. */
  const holdBlade = (from: { x: number; y: number }): Grip | null => {
    let last = picker.angleAt(from, size(), camera);
    if (last === null) return null;
    const tooth = (2 * Math.PI) / bench.blade.teeth;
    let turn = 0;
    const spin = (by: number): void => {
      turn += by;
      built.spindle.rotation.z += by;
      renderer.shadowMap.needsUpdate = true;
      loop.stir();
    };
    return {
      move(point) {
        const angle = picker.angleAt(point, size(), camera);
        if (angle === null || last === null) return;
        spin(angle - last - 2 * Math.PI * Math.round((angle - last) / (2 * Math.PI)));
        last = angle;
      },
      end() {
        const teeth = Math.round(turn / tooth);
        spin(teeth * tooth - turn);
        if (teeth !== 0) options.onTurn?.(teeth);
      },
    };
  };
  let hovered: Part | null = null;
  let hoverQueued = false;
  const stopListening = listenForGestures(canvas, {
    orbit,
    zoom,
    pan,
    grab(point) {
      const part = pickAt(point)?.part;
      return part === 'blade' && options.mayTurn?.(part) ? holdBlade(point) : null;
    },
    tap(point) {
      const pick = pickAt(point);
      if (pick === null) return;
      if (pick.tooth === undefined) options.onPick(pick.part);
      else options.onPick(pick.part, { tooth: pick.tooth });
    },
    doubleTap(point) {
      const pick = pickAt(point);
      if (pick === null) return;
      const pose = drive.goal();
      fly({ ...pose, target: pick.at, distance: Math.max(0.22, pose.distance * 0.5) });
    },
    hover(point) {
      if (options.onHover === undefined || hoverQueued) return;
      hoverQueued = true;
      requestAnimationFrame(() => {
        hoverQueued = false;
        const part = point === null ? null : (pickAt({ ...point, kind: 'mouse' })?.part ?? null);
        if (part === hovered) return;
        hovered = part;
        options.onHover?.(part);
      });
    },
  });

  const onLost = (event: Event): void => {
    event.preventDefault();
    options.onContextLost?.();
  };
  const onRestored = (): void => {
    renderer.shadowMap.needsUpdate = true;
    loop.stir();
    options.onContextRestored?.();
  };
  canvas.addEventListener('webglcontextlost', onLost);
  canvas.addEventListener('webglcontextrestored', onRestored);

  const resize = (): void => {
    const { width, height } = size();
    if (width === 0 || height === 0) return;
    const ratio = Math.min(SHARPEST, window.devicePixelRatio || 1);
    picture.setSize(Math.round(width * ratio), Math.round(height * ratio));
    camera.aspect = width / height;
    camera.updateProjectionMatrix();
    loop.stir();
  };
  resize();
  drive.moveTo(poseOfViewpoint('operator', bench, aspect()));

  // the instruments come with the first reading: most visits to a bench only look
  let holder: InstrumentHolder | null = null;
  let held: Shown | null = null;
  // a cut is shown only when one is tried
  let cut: CutShow | null = null;
  let cutting: CutState | null = null;
  const hold = (): Pose | null => {
    const view = holder?.show(held, bench) ?? null;
    seeThrough.show(view?.through ?? []);
    if (view !== null && view.tooth !== null) built.turnToothTo(view.tooth);
    renderer.shadowMap.needsUpdate = true;
    return view === null ? null : poseOfTool(view, aspect());
  };

  return {
    viewpoints: VIEWPOINTS.filter(({ id }) => id !== 'rack' || options.rack?.length) as readonly {
      readonly id: string;
      readonly title: string;
    }[],
    update(next: Bench): void {
      bench = next;
      built.update(next);
      seeThrough.refresh();
      if (cutting !== null) cut?.show(cutting, next);
      if (held !== null) hold();
      lightPlace(next.place.light);
      highlight.refresh();
      renderer.shadowMap.needsUpdate = true;
      loop.stir();
    },
    goTo(id: string): void {
      if (isViewpoint(id)) fly(poseOfViewpoint(id, bench, aspect()));
    },
    lookAt: (part: Part): void => fly(poseOfPart(part, bench, aspect())),
    highlight(part: Part | null): void {
      highlight.show(part);
      loop.stir();
    },
    /** Holds an instrument to the bench and looks at it; null puts it away. Resolves once it lies there. */
    async showInstrument(shown: Shown | null): Promise<void> {
      held = shown;
      if (holder === null) {
        if (shown === null) return;
        const tools = await import('./tools/instrument.ts').catch(() => null);
        // out of reach, and then the reading is told in words alone; or overtaken, or closed meanwhile
        if (tools === null || closed || held !== shown) return;
        holder ??= tools.createInstrument(built);
      }
      const pose = hold();
      if (pose === null) loop.stir();
      else fly(pose);
    },
    /**
     * Shows one instant of a cut: the work, its kerf, the guard over it, the strip to keep clear. Null
     * puts the stock back before the blade. The scene keeps no time: whoever calls steps it.
     */
    async showCut(state: CutState | null): Promise<void> {
      cutting = state;
      if (cut === null) {
        if (state === null) return;
        const made = await import('./motion/cut-show.ts').catch(() => null);
        if (made === null || closed) return;
        cut ??= made.createCutShow(built);
      }
      cut.show(cutting, bench);
      renderer.shadowMap.needsUpdate = true;
      loop.stir();
    },
    /** resolves once the picture is drawn with the workshop and the people, or with all that can be had */
    whole,
    /** people in the way of the work are outlined in any case; hidden, nobody is drawn at all */
    setPeople(state: 'shown' | 'hidden'): void {
      veil.set(state);
      loop.stir();
    },
    setLamp(state: 'on' | 'off'): void {
      lights.setLamp(state);
      loop.stir();
    },
    /** Turns the blade by hand, by whole teeth; positive as it runs. */
    turnBlade(teeth: number): void {
      built.spindle.rotation.z += (teeth * 2 * Math.PI) / bench.blade.teeth;
      renderer.shadowMap.needsUpdate = true;
      loop.stir();
    },
    orbit,
    zoom,
    pan,
    resize,
    renderNow: (): void => loop.drawNow(),
    frames: (): number => loop.frames(),
    info: () => ({
      calls: renderer.info.render.calls,
      triangles: renderer.info.render.triangles,
      geometries: renderer.info.memory.geometries,
      textures: renderer.info.memory.textures,
      level: quality.level(),
    }),
    dispose(): void {
      closed = true;
      loop.stop();
      stopListening();
      canvas.removeEventListener('webglcontextlost', onLost);
      canvas.removeEventListener('webglcontextrestored', onRestored);
      highlight.dispose();
      veil.dispose();
      holder?.dispose();
      cut?.dispose();
      seeThrough.dispose();
      built.dispose();
      picture.dispose();
      surroundings.dispose();
      lights.key.shadow.map?.dispose();
      // the next stage on this canvas finds the context as a new one would be
      const gl = renderer.getContext();
      gl.pixelStorei(gl.UNPACK_FLIP_Y_WEBGL, 0);
      gl.pixelStorei(gl.UNPACK_PREMULTIPLY_ALPHA_WEBGL, 0);
      renderer.dispose();
    },
  };
}

export type Stage = ReturnType<typeof createStage>;

/** What a person at the bench has to see, m: the blade and its guard, and the table before and behind. */
function workOf(bench: Bench): [number, number, number][] {
  const { tableFront, halfAtTable, outfeed } = layoutOf(bench);
  const front = tableFront / 1000 + 0.1;
  return [
    [-halfAtTable / 1000, 0.04, 0],
    [0, 0.12, 0],
    [halfAtTable / 1000, 0.04, 0],
    [front, 0, bench.fence.face / 2000],
    [Math.min(0.7, outfeed / 1000), 0, 0],
  ];
}
