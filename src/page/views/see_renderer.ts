// Draws a model of a lit room with WebGL 2. Levels, colours and the eye are uniforms: to dim costs no more than to turn.

import { dot, type Eye, pictureOf } from './see_eye';
import { tintAt } from './see_light';
import type { Exposure, Face, Opening, RoomModel, Vector } from './see_model';
import { fragmentShader, k_vertex_shader } from './see_shaders';

/** This device cannot draw a model. */
export class CannotDraw extends Error {}

/** What is drawn. */
export interface Shot {
  readonly model: RoomModel;
  /** By group. */
  readonly levels: readonly number[];
  readonly exposure: Exposure;
  readonly eye: Eye;
}

const k_corner_numbers = 9; // place in the room, place in the texture, tint, reflectance
const k_float_bytes = 4;
const k_most_groups = 128; // uniforms of any device suffice for so many

function made<T>(thing: T | null): T {
  if (thing === null) throw new CannotDraw('This device has no room for the picture.');
  return thing;
}

function shaderOf(gl: WebGL2RenderingContext, kind: GLenum, source: string): WebGLShader {
  const shader = made(gl.createShader(kind));
  gl.shaderSource(shader, source);
  gl.compileShader(shader);
  return shader;
}

function programOf(gl: WebGL2RenderingContext, groups: number): WebGLProgram {
  const program = made(gl.createProgram());
  for (const shader of [
    shaderOf(gl, gl.VERTEX_SHADER, k_vertex_shader),
    shaderOf(gl, gl.FRAGMENT_SHADER, fragmentShader(groups)),
  ]) {
    gl.attachShader(program, shader);
    gl.deleteShader(shader); // with the program
  }
  gl.linkProgram(program);
  if (!gl.getProgramParameter(program, gl.LINK_STATUS) && !gl.isContextLost()) {
    throw new CannotDraw(`This device cannot draw the room: ${gl.getProgramInfoLog(program) ?? ''}`);
  }
  return program;
}

/** What lies on no surface has no light to reflect. */
function cornersOf({ corners_m, places, reflectance, tint }: Face): readonly number[] {
  return Array.from({ length: corners_m.length / 3 }, (_, i) => [
    ...corners_m.subarray(3 * i, 3 * i + 3),
    ...(places?.subarray(2 * i, 2 * i + 2) ?? [0, 0]),
    ...tint,
    places ? reflectance : 0,
  ]).flat();
}

/** A part of the list of triangles. */
interface Stretch {
  readonly first: number;
  readonly count: number;
}

/** Faces one after another, those that do not shine first. */
function sortedFaces(model: RoomModel): { plain: readonly Face[]; shining: readonly (Opening & { of: Face })[] } {
  const openings = model.openings.flatMap((opening) => {
    const of = model.faces[opening.face];
    return of ? [{ ...opening, of }] : [];
  });
  const shining = new Set(openings.map(({ of }) => of));
  return { plain: model.faces.filter((face) => !shining.has(face)), shining: openings };
}

/** A model as the device holds it. */
class HeldModel {
  private readonly program: WebGLProgram;
  private readonly corners: WebGLVertexArrayObject;
  private readonly buffers: readonly WebGLBuffer[];
  private readonly lights: WebGLTexture;
  private readonly plain: Stretch;
  private readonly openings: readonly (Opening & Stretch & { readonly showsBothSides: boolean })[];
  private readonly uniforms: ReadonlyMap<string, WebGLUniformLocation | null>;

  constructor(
    private readonly gl: WebGL2RenderingContext,
    private readonly model: RoomModel,
  ) {
    if (model.groups.length > k_most_groups) throw new CannotDraw('The cans of this job are dimmed in too many ways.');
    const { plain, shining } = sortedFaces(model);
    const numbers: number[] = [];
    const triangles: number[] = [];
    const add = (face: Face): Stretch => {
      const before = numbers.length / k_corner_numbers;
      const first = triangles.length;
      for (const corner of face.triangles) triangles.push(before + corner);
      for (const number of cornersOf(face)) numbers.push(number);
      return { first, count: triangles.length - first };
    };
    for (const face of plain) add(face);
    this.plain = { first: 0, count: triangles.length };
    this.openings = shining.map((opening) => ({
      ...opening,
      ...add(opening.of),
      showsBothSides: opening.of.showsBothSides,
    }));
    this.program = programOf(gl, Math.max(1, model.groups.length));
    this.uniforms = new Map(
      ['picture', 'groups', 'glow_cd_m2', 'scale', 'white', 'gains'].map((name) => [
        name,
        gl.getUniformLocation(this.program, name),
      ]),
    );
    this.corners = made(gl.createVertexArray());
    this.buffers = this.upload(Float32Array.from(numbers), Uint32Array.from(triangles));
    this.lights = this.uploadLights();
  }

  draw({ levels, exposure, eye }: Shot, aspect: number): void {
    const { gl } = this;
    gl.useProgram(this.program);
    gl.bindVertexArray(this.corners);
    gl.bindTexture(gl.TEXTURE_2D_ARRAY, this.lights);
    const tints = this.model.groups.map((group, i) => tintAt(group, levels[i] ?? 0));
    const groups = tints.flatMap((tint, i) => [...tint, levels[i] ?? 0]);
    gl.uniformMatrix4fv(this.uniform('picture'), false, pictureOf(eye, aspect));
    if (groups.length > 0) gl.uniform4fv(this.uniform('groups'), groups);
    gl.uniform1f(this.uniform('scale'), exposure.scale_m2_per_cd);
    gl.uniform1f(this.uniform('white'), exposure.white);
    gl.uniform3fv(this.uniform('gains'), [...exposure.gains]);
    this.drawStretch(this.plain, [0, 0, 0], false);
    for (const opening of this.openings) {
      const full_cd_m2 = luminance_cd_m2(opening, eye.place_m);
      if (opening.showsBothSides && full_cd_m2 === 0 && !isAimedTo(opening, eye.place_m)) continue; // its shade hides it
      const cd_m2 = (levels[opening.group] ?? 0) * full_cd_m2;
      const [red, green, blue] = tints[opening.group] ?? [1, 1, 1];
      this.drawStretch(opening, [cd_m2 * red, cd_m2 * green, cd_m2 * blue], opening.showsBothSides);
    }
  }

  release(): void {
    const { gl } = this;
    gl.deleteTexture(this.lights);
    for (const buffer of this.buffers) gl.deleteBuffer(buffer);
    gl.deleteVertexArray(this.corners);
    gl.deleteProgram(this.program);
  }

  private uniform(name: string): WebGLUniformLocation | null {
    return this.uniforms.get(name) ?? null;
  }

  private drawStretch({ first, count }: Stretch, glow_cd_m2: Vector, showsBothSides: boolean): void {
    const { gl } = this;
    if (showsBothSides) gl.disable(gl.CULL_FACE);
    else gl.enable(gl.CULL_FACE);
    gl.uniform3fv(this.uniform('glow_cd_m2'), [...glow_cd_m2]);
    gl.drawElements(gl.TRIANGLES, count, gl.UNSIGNED_INT, k_float_bytes * first);
  }

  private upload(corners: Float32Array, triangles: Uint32Array): readonly WebGLBuffer[] {
    const { gl } = this;
    const buffers = [made(gl.createBuffer()), made(gl.createBuffer())] as const;
    gl.bindVertexArray(this.corners);
    gl.bindBuffer(gl.ARRAY_BUFFER, buffers[0]);
    gl.bufferData(gl.ARRAY_BUFFER, corners, gl.STATIC_DRAW);
    gl.bindBuffer(gl.ELEMENT_ARRAY_BUFFER, buffers[1]);
    gl.bufferData(gl.ELEMENT_ARRAY_BUFFER, triangles, gl.STATIC_DRAW);
    let before = 0;
    for (const [name, size] of [
      ['corner_m', 3],
      ['corner_place', 2],
      ['corner_material', 4],
    ] as const) {
      const attribute = gl.getAttribLocation(this.program, name);
      gl.enableVertexAttribArray(attribute);
      gl.vertexAttribPointer(
        attribute,
        size,
        gl.FLOAT,
        false,
        k_float_bytes * k_corner_numbers,
        k_float_bytes * before,
      );
      before += size;
    }
    return buffers;
  }

  /** A layer a group. */
  private uploadLights(): WebGLTexture {
    const { gl, model } = this;
    const texture = made(gl.createTexture());
    gl.bindTexture(gl.TEXTURE_2D_ARRAY, texture);
    gl.texStorage3D(gl.TEXTURE_2D_ARRAY, 1, gl.RGBA16F, model.width, model.height, Math.max(1, model.groups.length));
    for (const [layer, { texels }] of model.groups.entries()) {
      gl.texSubImage3D(
        gl.TEXTURE_2D_ARRAY,
        0,
        0,
        0,
        layer,
        model.width,
        model.height,
        1,
        gl.RGBA,
        gl.HALF_FLOAT,
        texels,
      );
    }
    for (const [name, value] of [
      [gl.TEXTURE_MIN_FILTER, gl.LINEAR],
      [gl.TEXTURE_MAG_FILTER, gl.LINEAR],
      [gl.TEXTURE_WRAP_S, gl.CLAMP_TO_EDGE],
      [gl.TEXTURE_WRAP_T, gl.CLAMP_TO_EDGE],
    ] as const) {
      gl.texParameteri(gl.TEXTURE_2D_ARRAY, name, value);
    }
    return texture;
  }
}

const between = (from: Vector, to: Vector): Vector => [to[0] - from[0], to[1] - from[1], to[2] - from[2]];

const isAimedTo = ({ centre_m, aim }: Opening, eye_m: Vector): boolean => dot(between(centre_m, eye_m), aim) > 0;

/** Of an opening at full level, as an eye sees it. */
function luminance_cd_m2({ centre_m, aim, step_deg, cd_m2 }: Opening, eye_m: Vector): number {
  const toEye = between(centre_m, eye_m);
  const distance_m = Math.hypot(...toEye);
  if (distance_m === 0) return 0;
  const cosine = Math.min(Math.max(dot(toEye, aim) / distance_m, -1), 1);
  const steps = (Math.acos(cosine) * 180) / Math.PI / step_deg;
  const [below = 0, above = below] = cd_m2.slice(Math.floor(steps), Math.floor(steps) + 2);
  return below + (steps % 1) * (above - below);
}

/** Draws into one canvas, and again after its device was lost. */
export class Renderer {
  private readonly gl: WebGL2RenderingContext;
  private held = new Map<RoomModel, HeldModel>();

  /** @throws CannotDraw where there is no WebGL 2 */
  constructor(private readonly canvas: HTMLCanvasElement) {
    const gl = canvas.getContext('webgl2', { alpha: false, antialias: true });
    if (!gl) throw new CannotDraw('This browser has no WebGL 2.');
    this.gl = gl;
  }

  /** What the device held is gone with it; the next picture brings it back. */
  forget(): void {
    this.held = new Map();
  }

  /** @throws CannotDraw */
  draw(shot: Shot): void {
    const { gl, canvas } = this;
    if (gl.isContextLost()) return;
    const model = this.held.get(shot.model) ?? new HeldModel(gl, shot.model);
    this.held.set(shot.model, model);
    gl.viewport(0, 0, canvas.width, canvas.height);
    gl.enable(gl.DEPTH_TEST);
    gl.clearColor(0, 0, 0, 1);
    gl.clear(gl.COLOR_BUFFER_BIT | gl.DEPTH_BUFFER_BIT);
    model.draw(shot, canvas.width / canvas.height);
  }

  /** Gives back what is held of models that are no longer shown. */
  keepOnly(models: ReadonlySet<RoomModel>): void {
    for (const [model, held] of this.held) {
      if (models.has(model)) continue;
      held.release();
      this.held.delete(model);
    }
  }

  close(): void {
    this.keepOnly(new Set());
    this.gl.getExtension('WEBGL_lose_context')?.loseContext(); // browsers allow only some at a time
  }
}
