// Reads the model of a lit room, a binary glTF file as `evenlit view --model` writes it. Only what it needs of glTF: one
// buffer, meshes of one primitive, no nodes, for corners and all else are in the plan's coordinates, m, z up.

export type Vector = readonly [number, number, number];

/** A plane thing that shows one side, or both. */
export interface Face {
  readonly kind: 'surface' | 'trim' | 'opening';
  /** Corners, three numbers each. */
  readonly corners_m: Float32Array;
  /** Of each corner in the light textures, 0 to 1, two numbers each; null: it lies on no surface. */
  readonly places: Float32Array | null;
  /** Three corners a triangle, counter-clockwise from the side that shows. */
  readonly triangles: Uint32Array;
  readonly reflectance: number;
  readonly tint: Vector;
  readonly showsBothSides: boolean;
}

/** Cans that always have the same level and colour. */
export interface Group {
  readonly circuit: string | null;
  /** Counted from 1. */
  readonly cans: readonly number[];
  /** As the job has it. */
  readonly level: number;
  readonly tint: Vector;
  /** Of light that grows warmer as it is dimmed: at levels of 0, 0.1, ... 1. */
  readonly tints: readonly Vector[] | null;
  /** Light at full level, lx: red, green, blue and 1 as halves, row by row. */
  readonly texels: Uint16Array;
}

/** What shines itself. */
export interface Opening {
  readonly group: number;
  readonly face: number;
  readonly centre_m: Vector;
  readonly aim: Vector;
  readonly step_deg: number;
  /** At full level, by the angle of the eye from the aim. */
  readonly cd_m2: readonly number[];
}

/** How luminances are shown on a screen. */
export interface Exposure {
  readonly adaptation_cd_m2: number;
  readonly scale_m2_per_cd: number;
  readonly white: number;
  readonly gains: Vector;
}

export interface SeenFrom {
  readonly name: string;
  readonly eye_m: Vector;
  readonly toward: Vector;
  readonly width_deg: number;
}

export interface RoomModel {
  readonly width: number;
  readonly height: number;
  readonly faces: readonly Face[];
  readonly groups: readonly Group[];
  readonly openings: readonly Opening[];
  /** Levels by group. */
  readonly moods: ReadonlyMap<string, readonly number[]>;
  readonly exposure: Exposure;
  /** For all moods together; where there are some. */
  readonly moodsExposure: Exposure | null;
  readonly views: readonly SeenFrom[];
}

/** The file is not such a model. */
export class BrokenModel extends Error {}

const k_magic = 0x46546c67; // "glTF"
const k_json_chunk = 0x4e4f534a;
const k_binary_chunk = 0x004e4942;
const k_header_bytes = 12;
const k_chunk_header_bytes = 8;
const k_texel_halves = 4;
const k_format = 'evenlit room model';
const k_version = 1;

const part = (of: unknown, key: string | number): unknown =>
  typeof of === 'object' && of !== null ? Reflect.get(of, key) : undefined;

const at = (of: unknown, ...path: readonly (string | number)[]): unknown => path.reduce(part, of);

function refuse(what: string): never {
  throw new BrokenModel(`The model of the room cannot be read: ${what}.`);
}

const number = (value: unknown): number =>
  typeof value === 'number' && Number.isFinite(value) ? value : refuse('a number is missing');

const text = (value: unknown): string => (typeof value === 'string' ? value : refuse('a word is missing'));

const list = (value: unknown): readonly unknown[] => (Array.isArray(value) ? value : refuse('a list is missing'));

const numbers = (value: unknown): readonly number[] => list(value).map(number);

function vector(value: unknown): Vector {
  const [x, y, z] = numbers(value);
  return x === undefined || y === undefined || z === undefined ? refuse('a direction is missing') : [x, y, z];
}

/** A whole number from 0 that is below a bound. */
function index(value: unknown, bound: number): number {
  const found = number(value);
  return Number.isInteger(found) && found >= 0 && found < bound ? found : refuse('a number is out of bounds');
}

/** The chunks of a file. */
function chunksOf(bytes: Uint8Array): { json: unknown; binary: ArrayBuffer } {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const word = (offset: number): number =>
    offset + 4 <= bytes.length ? view.getUint32(offset, true) : refuse('it ends early');
  const chunk = (offset: number, kind: number): { start: number; end: number } => {
    const start = offset + k_chunk_header_bytes;
    const end = start + word(offset);
    if (word(offset + 4) !== kind) refuse('a part is missing');
    return end <= bytes.length ? { start, end } : refuse('it ends early');
  };
  if (word(0) !== k_magic) refuse('it is no binary glTF');
  const json = chunk(k_header_bytes, k_json_chunk);
  const binary = chunk(json.end, k_binary_chunk);
  try {
    return {
      json: JSON.parse(new TextDecoder().decode(bytes.subarray(json.start, json.end))),
      binary: bytes.slice(binary.start, binary.end).buffer, // a copy begins where arrays of any kind may begin
    };
  } catch {
    return refuse('its description is broken');
  }
}

/** What a file is made of. */
class Parts {
  readonly json: unknown;
  private readonly binary: ArrayBuffer;

  constructor(bytes: Uint8Array) {
    const { json, binary } = chunksOf(bytes);
    this.json = json;
    this.binary = binary;
  }

  floats(accessor: unknown, each: number): Float32Array {
    const { start, count } = this.accessor(accessor, 4 * each);
    return new Float32Array(this.binary, start, each * count);
  }

  corners(accessor: unknown, bound: number): Uint32Array {
    const { start, count } = this.accessor(accessor, 4);
    const found = new Uint32Array(this.binary, start, count);
    return found.length % 3 === 0 && found.every((corner) => corner < bound)
      ? found
      : refuse('a corner is out of bounds');
  }

  halves(view: unknown, count: number): Uint16Array {
    const { start, length } = this.view(view);
    return length === 2 * count ? new Uint16Array(this.binary, start, count) : refuse('a texture has the wrong size');
  }

  private view(which: unknown): { start: number; length: number } {
    const views = list(at(this.json, 'bufferViews'));
    const view = views[index(which, views.length)];
    const start = index(at(view, 'byteOffset') ?? 0, this.binary.byteLength + 1);
    const length = index(at(view, 'byteLength'), this.binary.byteLength - start + 1);
    return start % 4 === 0 ? { start, length } : refuse('a part begins at an odd place');
  }

  private accessor(which: unknown, bytesEach: number): { start: number; count: number } {
    const accessors = list(at(this.json, 'accessors'));
    const accessor = accessors[index(which, accessors.length)];
    const { start, length } = this.view(at(accessor, 'bufferView'));
    const offset = index(at(accessor, 'byteOffset') ?? 0, length + 1);
    const count = index(at(accessor, 'count'), Math.floor((length - offset) / bytesEach) + 1);
    return offset % 4 === 0 ? { start: start + offset, count } : refuse('a part begins at an odd place');
  }
}

function kindOf(value: unknown): Face['kind'] {
  return value === 'surface' || value === 'trim' || value === 'opening' ? value : refuse('a face is of no known kind');
}

function faceOf(parts: Parts, mesh: unknown): Face {
  const primitive = at(mesh, 'primitives', 0);
  const materials = list(at(parts.json, 'materials'));
  const material = materials[index(at(primitive, 'material'), materials.length)];
  const corners_m = parts.floats(at(primitive, 'attributes', 'POSITION'), 3);
  const accessor = at(primitive, 'attributes', 'TEXCOORD_0');
  const places = accessor === undefined ? null : parts.floats(accessor, 2);
  if (places && 3 * places.length !== 2 * corners_m.length) refuse('a face has too few places');
  return {
    kind: kindOf(at(mesh, 'extras', 'kind')),
    corners_m,
    places,
    triangles: parts.corners(at(primitive, 'indices'), corners_m.length / 3),
    reflectance: number(at(material, 'extras', 'reflectance')),
    tint: vector(at(material, 'extras', 'tint_linear_rgb')),
    showsBothSides: at(material, 'doubleSided') === true,
  };
}

function groupOf(parts: Parts, texels: number, json: unknown): Group {
  const circuit = at(json, 'circuit');
  const tints = at(json, 'tints_by_tenths_of_level');
  return {
    circuit: circuit === null ? null : text(circuit),
    cans: numbers(at(json, 'cans')),
    level: number(at(json, 'level')),
    tint: vector(at(json, 'tint_linear_rgb')),
    tints: tints === undefined ? null : list(tints).map(vector),
    texels: parts.halves(at(json, 'light_buffer_view'), k_texel_halves * texels),
  };
}

function openingOf(json: unknown, groups: number, faces: number): Opening {
  return {
    group: index(at(json, 'group'), groups),
    face: index(at(json, 'mesh'), faces),
    centre_m: vector(at(json, 'centre_m')),
    aim: vector(at(json, 'aim')),
    step_deg: number(at(json, 'step_deg')),
    cd_m2: numbers(at(json, 'luminance_cd_m2')),
  };
}

const exposureOf = (json: unknown): Exposure => ({
  adaptation_cd_m2: number(at(json, 'adaptation_cd_m2')),
  scale_m2_per_cd: number(at(json, 'scale_m2_per_cd')),
  white: number(at(json, 'white')),
  gains: vector(at(json, 'colour_gains')),
});

/** Where the engine looks from when the job has no view. */
const k_unnamed_view = 'from the door or a corner';

const viewOf = (json: unknown): SeenFrom => ({
  name: text(at(json, 'name')) || k_unnamed_view,
  eye_m: vector(at(json, 'eye_m')),
  toward: vector(at(json, 'toward')),
  width_deg: number(at(json, 'width_deg')),
});

/** @throws BrokenModel */
export function modelOf(bytes: Uint8Array): RoomModel {
  const parts = new Parts(bytes);
  const extras = at(parts.json, 'extras', 'evenlit');
  if (at(extras, 'format') !== k_format || at(extras, 'version') !== k_version) refuse('it is of another kind');
  const width = number(at(extras, 'light_texture', 'width'));
  const height = number(at(extras, 'light_texture', 'height'));
  const faces = list(at(parts.json, 'meshes')).map((mesh) => faceOf(parts, mesh));
  const groups = list(at(extras, 'groups')).map((group) => groupOf(parts, width * height, group));
  const moods = list(at(extras, 'moods')).map((mood) => [text(at(mood, 'name')), numbers(at(mood, 'levels'))] as const);
  const moodsExposure = at(extras, 'exposures', 'moods');
  return {
    width,
    height,
    faces,
    groups,
    openings: list(at(extras, 'openings')).map((opening) => openingOf(opening, groups.length, faces.length)),
    moods: new Map(moods),
    exposure: exposureOf(at(extras, 'exposures', 'own_levels')),
    moodsExposure: moodsExposure === null ? null : exposureOf(moodsExposure),
    views: list(at(extras, 'views')).map(viewOf),
  };
}
